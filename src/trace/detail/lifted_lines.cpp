#include "trace/detail/lifted_lines.h"

#include "base/input_error.h"
#include "trace/detail/median_colour.h"
#include "trace/detail/number_cover.h"
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

/// From points of the page to its picture, where pixels' centres are whole numbers.
cv::Matx33d toPixelsOf(const Page& page, const cv::Size2d& points) {
    return {page.picture.width() / points.width,
            0,
            -0.5,
            0,
            page.picture.height() / points.height,
            -0.5,
            0,
            0,
            1};
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

/// The outline of a grid where the page's paths say that it lies.
QPolygonF outlineOf(const FoundGrid& grid, const Page& page, const PagePaths& paths,
                    const PathLattice& lattice) {
    Lattice exact = latticeOf(grid);
    exact.toPage = toPixelsOf(page, paths.size) * lattice.toCells.inv();
    return foundGrid(exact).outline;
}

/// Text that shows the numbers of an edge which lie over the grid in part: it begins beyond, or at
/// a corner of such a number's box. Their words go.
void liftNumbers(const PagePaths& paths, const Page& page, const FoundGrid& grid,
                 std::vector<Word>& words, std::set<PathPlace>& gone) {
    constexpr int kMostBytes = 8; // of what one number is
    constexpr int kFewestBytes = 2;
    constexpr double kSame = 0.5;    // px, by which digits that are shown one by one lie off a line
    constexpr double kNear = 0.3;    // of a number's height
    constexpr double kBeyond = 0.25; // of a number's height, that its origin may lie beyond its box
    const cv::Matx33d toPixels = toPixelsOf(page, paths.size);
    const cv::Matx33d toCells = latticeOf(grid).toPage.inv();
    const cv::Rect2d cells(0, 0, grid.columns, grid.rows);
    const std::vector<QRectF> boxes = numbersOverEdge(page.words, grid);
    std::optional<QRectF> last; // the number of the text before
    cv::Point2d lastAt;
    for (std::size_t i = 0; i < paths.texts.size() && !boxes.empty();) {
        const cv::Point2d& origin = paths.texts[i].origin;
        int bytes = 0; // of all that is shown from there
        std::size_t end = i;
        for (; end < paths.texts.size() && paths.texts[end].origin == origin; ++end) {
            bytes += paths.texts[end].bytes;
        }
        const cv::Point2d at = through(toPixels, origin);
        const auto isOf = [&](const QRectF& box) {
            const double beyond = kBeyond * std::min(box.width(), box.height());
            return box.adjusted(-beyond, -beyond, beyond, beyond).contains(at.x, at.y);
        };
        // A symbol of a cell there begins elsewhere: a number begins at a corner of its box.
        const auto isAtCorner = [&](const QRectF& box) {
            const double near = kNear * std::min(box.width(), box.height());
            return bytes >= kFewestBytes && isOf(box) &&
                   std::min(std::abs(at.x - box.left()), std::abs(at.x - box.right())) < near &&
                   std::min(std::abs(at.y - box.top()), std::abs(at.y - box.bottom())) < near;
        };
        const bool isWithin = cells.contains(through(toCells, at));
        const bool goesOn = last && isOf(*last) &&
                            std::min(std::abs(at.x - lastAt.x), std::abs(at.y - lastAt.y)) < kSame;
        const auto found =
            isWithin ? std::ranges::find_if(boxes, isAtCorner) : std::ranges::find_if(boxes, isOf);
        if (bytes > kMostBytes || (found == boxes.end() && !goesOn)) {
            last.reset();
        } else if (found != boxes.end()) {
            last = *found;
        }
        lastAt = at;
        for (std::size_t k = i; k < end && last; ++k) {
            gone.insert(paths.texts[k].place);
        }
        i = end;
        std::erase_if(words, [&](const Word& word) { return last && isOf(word.box); });
    }
}

void liftFrom(std::size_t n, std::span<const std::size_t> here, LiftedLines& result) {
    const Page page = result.pages[n];
    const std::optional<PagePaths> paths = pathsOf(page.pdf, page.number);
    if (!paths || paths->paths.empty()) {
        return;
    }
    std::vector<PathLines> found;
    GonePaths gone; // from the picture
    GonePaths more; // and from what cells are drawn again by
    bool areExact = true;
    for (const std::size_t p : here) {
        const FoundGrid& grid = result.pieces[p].grid;
        const cv::Matx33d toCells = latticeOf(grid).toPage.inv() * toPixelsOf(page, paths->size);
        found.push_back(backstitchAmong(*paths, toCells, grid.columns, grid.rows));
        gone.paths.insert(found.back().places.begin(), found.back().places.end());
        areExact = areExact && found.back().lattice.isExact;
    }
    for (std::size_t k = 0; k < here.size() && areExact; ++k) {
        FoundGrid& grid = result.pieces[here[k]].grid;
        grid.outline = outlineOf(grid, page, *paths, found[k].lattice);
        result.isExact[here[k]] = 1;
        result.areAll[here[k]] = found[k].isAll ? 1 : 0;
    }
    if (!gone.isEmpty()) {
        Page without = page;
        without.pdf = withoutPaths(page.pdf, page.number, gone);
        const auto picture = without.pdf.isEmpty() ? std::nullopt : pictureOf(without);
        if (!picture) {
            return;
        }
        without.picture = *picture;
        for (std::size_t k = 0; k < here.size(); ++k) {
            const FoundGrid& grid = result.pieces[here[k]].grid;
            keepSeen(found[k], Seen(page, *picture, grid), latticeOf(grid).pitch, page.isTurnedOver,
                     result.lines[here[k]], result.colours[here[k]]);
        }
        result.pages[n] = std::move(without);
    }
    std::vector<Word> words = page.words;
    for (std::size_t k = 0; k < here.size(); ++k) {
        const FoundGrid& grid = result.pieces[here[k]].grid;
        more.add(found[k].ofEdge);
        liftNumbers(*paths, page, grid, words, more.texts);
        if (areExact) { // else the grid's lines are needed
            more.add(found[k].ofGrid);
            more.add(numbersOverEdge(words, grid).empty() ? found[k].ofFrame : GonePaths{});
        }
    }
    if (!more.isEmpty()) {
        more.add(gone);
        const QByteArray pdf = withoutPaths(page.pdf, page.number, more);
        if (!pdf.isEmpty()) {
            result.pages[n].pdf = pdf;
            result.pages[n].words = words;
        }
    }
}

} // namespace

LiftedLines liftedLines(std::span<const Page> pages, std::span<const Piece> pieces) {
    LiftedLines result{{pages.begin(), pages.end()},
                       {pieces.begin(), pieces.end()},
                       std::vector<char>(pieces.size(), 0),
                       std::vector<char>(pieces.size(), 0),
                       std::vector<std::vector<chart::Line>>(pieces.size()),
                       std::vector<std::vector<colour::Srgb8>>(pieces.size())};
    for (std::size_t n = 0; n < pages.size(); ++n) {
        std::vector<std::size_t> here; // pieces
        for (std::size_t p = 0; p < pieces.size(); ++p) {
            if (pieces[p].page == n) {
                here.push_back(p);
            }
        }
        if (!pages[n].pdf.isEmpty() && !here.empty()) {
            liftFrom(n, here, result);
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
