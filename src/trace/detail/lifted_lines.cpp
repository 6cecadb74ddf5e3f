#include "trace/detail/lifted_lines.h"

#include "base/input_error.h"
#include "trace/detail/median_colour.h"
#include "trace/detail/on_paper.h"
#include "trace/detail/path_lines.h"
#include "trace/detail/pdf_file.h"
#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <iterator>

namespace otherskein::trace::detail {

namespace {

constexpr double kLeastSeen = 0.3;  // of a line's length, dashed ones too
constexpr double kMostHidden = 0.5; // of a look's lines, under bold lines that are drawn later
constexpr int kChanged = 6;         // grey levels by which a pixel is another
constexpr double kThick = 2.5;      // px, from which a line's middle has its own colour

/// From points of the page to cells of a grid on its picture.
cv::Matx33d toCellsOf(const Page& page, const FoundGrid& grid, const cv::Size2d& points) {
    // Pixels' centres are whole numbers.
    const cv::Matx33d toPixels(page.picture.width() / points.width, 0, -0.5, 0,
                               page.picture.height() / points.height, -0.5, 0, 0, 1);
    return latticeOf(grid).toPage.inv() * toPixels;
}

std::optional<QImage> pictureOf(const Page& page) {
    try {
        PdfFile pdf(page.pdf, page.source);
        QImage picture = printed(pdf.document.render(page.number - 1, page.picture.size()));
        if (picture.size() != page.picture.size()) {
            return std::nullopt;
        }
        if (page.isTurnedOver) {
            picture.invertPixels();
        }
        return picture;
    } catch (const base::InputError&) { // the file was good before some paths were taken out
        return std::nullopt;
    }
}

/// Whether lines were seen where they were taken away, and the colours that they had there.
class Seen {
  public:
    Seen(const Page& page, const QImage& without, const FoundGrid& grid)
        : m_before(viewOf(page.picture)), m_lattice(latticeOf(grid)) {
        cv::Mat steps;
        cv::absdiff(m_before, viewOf(without), steps);
        cv::transform(steps, m_changes, cv::Matx13f(1, 1, 1));
    }

    /// Colours along a line's middle, where it is seen; none where too little of it is.
    [[nodiscard]] std::vector<cv::Vec3b> along(const chart::Line& line) const {
        const cv::Point2d from = m_lattice.corner(line.x1 / 2.0, line.y1 / 2.0);
        const cv::Point2d step = m_lattice.corner(line.x2 / 2.0, line.y2 / 2.0) - from;
        const int count = std::max(3, static_cast<int>(cv::norm(step)));
        std::vector<cv::Vec3b> colours;
        for (int i = 0; i < count; ++i) {
            const cv::Point at(from + step * ((i + 0.5) / count));
            const cv::Rect around =
                cv::Rect(at.x - 1, at.y - 1, 3, 3) & cv::Rect({}, m_before.size());
            double most = 0;
            cv::Point where;
            if (!around.empty()) {
                cv::minMaxLoc(m_changes(around), nullptr, &most, nullptr, &where);
            }
            if (most > kChanged) {
                colours.push_back(m_before.at<cv::Vec3b>(around.tl() + where));
            }
        }
        return static_cast<double>(colours.size()) < kLeastSeen * count ? std::vector<cv::Vec3b>()
                                                                        : colours;
    }

  private:
    cv::Mat m_before;
    cv::Mat m_changes; ///< CV_8U
    Lattice m_lattice;
};

/// Keeps the lines of looks that are seen, on the whole, and gives each look its colour.
void keepSeen(const PathLines& found, const Seen& seen, double pitch, bool isTurnedOver,
              std::vector<chart::Line>& lines, std::vector<colour::Srgb8>& colours) {
    std::vector<std::vector<cv::Vec3b>> samples(found.looks.size());
    std::vector<int> hidden(found.looks.size(), 0);
    std::vector<int> all(found.looks.size(), 0);
    for (const chart::Line& line : found.lines) {
        const std::vector<cv::Vec3b> along = seen.along(line);
        hidden[line.key] += along.empty() ? 1 : 0;
        ++all[line.key];
        samples[line.key].insert(samples[line.key].end(), along.begin(), along.end());
    }
    std::ranges::copy_if(found.lines, std::back_inserter(lines), [&](const chart::Line& line) {
        return hidden[line.key] < kMostHidden * all[line.key];
    });
    for (std::size_t i = 0; i < found.looks.size(); ++i) {
        const PathLines::Look& look = found.looks[i];
        cv::Vec3b colour(0, 0, 0);
        if (look.colour && (look.width * pitch < kThick || samples[i].empty())) {
            colour = *look.colour;
            if (isTurnedOver) {
                colour = cv::Vec3b(255, 255, 255) - colour;
            }
        } else if (!samples[i].empty()) {
            colour = medianColourOf(samples[i]);
        }
        colours.push_back({colour[2], colour[1], colour[0]});
    }
}

} // namespace

std::optional<LiftedLines> liftedLines(std::span<const Page> pages, std::span<const Piece> pieces) {
    LiftedLines result{{pages.begin(), pages.end()},
                       std::vector<std::vector<chart::Line>>(pieces.size()),
                       std::vector<std::vector<colour::Srgb8>>(pieces.size())};
    bool hasAny = false;
    for (std::size_t n = 0; n < pages.size(); ++n) {
        const Page& page = pages[n];
        const auto isHere = [&](const Piece& piece) { return piece.page == n; };
        if (page.pdf.isEmpty() || std::ranges::none_of(pieces, isHere)) {
            continue;
        }
        const std::optional<PagePaths> paths = pathsOf(page.pdf, page.number);
        if (!paths || paths->paths.empty()) {
            continue;
        }
        std::vector<PathLines> found(pieces.size());
        std::set<PathPlace> gone;
        for (std::size_t p = 0; p < pieces.size(); ++p) {
            if (isHere(pieces[p])) {
                const FoundGrid& grid = pieces[p].grid;
                found[p] = backstitchAmong(*paths, toCellsOf(page, grid, paths->size), grid.columns,
                                           grid.rows);
                gone.insert(found[p].places.begin(), found[p].places.end());
            }
        }
        if (gone.empty()) {
            continue;
        }
        Page without = page;
        without.pdf = withoutPaths(page.pdf, page.number, gone);
        const auto picture = without.pdf.isEmpty() ? std::nullopt : pictureOf(without);
        if (!picture) {
            continue;
        }
        without.picture = *picture;
        for (std::size_t p = 0; p < pieces.size(); ++p) {
            if (isHere(pieces[p])) {
                const Seen seen(page, *picture, pieces[p].grid);
                keepSeen(found[p], seen, latticeOf(pieces[p].grid).pitch, page.isTurnedOver,
                         result.lines[p], result.colours[p]);
                hasAny |= !result.lines[p].empty();
            }
        }
        result.pages[n] = std::move(without);
    }
    return hasAny ? std::optional(std::move(result)) : std::nullopt;
}

} // namespace otherskein::trace::detail
