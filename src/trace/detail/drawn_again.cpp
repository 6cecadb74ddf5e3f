#include "trace/detail/drawn_again.h"

#include "trace/detail/median.h"
#include "trace/detail/on_paper.h"
#include "trace/detail/pdf_file.h"
#include "trace/detail/views.h"

#include <QPdfDocumentRenderOptions>

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kMargin = 8; // px around the grid

/// Along one way: how large the whole page would be and what is cut from it. Qt takes both in whole
/// pixels, and one pixel less of the cut for its scale; together they are as good as exact.
struct Cut {
    int whole = 0;
    int from = 0;
    int asked = 0; ///< length of the cut, as Qt is told it
    int length = 0;
    double scale = 1; ///< px a point, that comes of it
};

Cut cutOf(double points, double wanted, double from, double length) {
    Cut cut;
    cut.length = static_cast<int>(std::ceil(length));
    double least = 1e9;
    // scale = (asked − 1) / length · whole / points
    for (int more = 0; more < 400; ++more) {
        const double share = static_cast<double>(cut.length + more) / cut.length;
        const double whole = std::round(wanted * points / share);
        const double scale = share * whole / points;
        if (std::abs(scale - wanted) < least && whole >= 1) {
            least = std::abs(scale - wanted);
            cut.whole = static_cast<int>(whole);
            cut.asked = cut.length + more + 1;
            cut.scale = scale;
        }
    }
    cut.from = static_cast<int>(std::lround(from));
    return cut;
}

/// Where a page is drawn larger: the lattice's lines, along one way, on the drawing.
struct Comb {
    double pitch = 0;
    double from = 0; ///< place of line 0
};

/// How much changes at each place across the lines, in strips of a fifth of a cell: CV_32F, a row
/// each.
cv::Mat changesOf(const cv::Mat& grey, bool alongX, int cell) {
    constexpr int kStrips = 5;
    cv::Mat steps;
    cv::Sobel(grey, steps, CV_16S, alongX ? 0 : 1, alongX ? 1 : 0, 1);
    cv::Mat sizes = cv::abs(steps);
    if (alongX) {
        cv::transpose(sizes, sizes);
    }
    sizes.convertTo(sizes, CV_32F);
    cv::Mat changes;
    cv::resize(sizes, changes, {sizes.cols, std::max(1, sizes.rows * kStrips / cell)}, 0, 0,
               cv::INTER_AREA);
    return changes;
}

std::vector<float> blurred(std::vector<float> profile) {
    cv::Mat view(1, static_cast<int>(profile.size()), CV_32F, profile.data());
    cv::GaussianBlur(view, view, {7, 1}, 0.8);
    return profile;
}

/// Their mean, compressed, so that bold lines speak no louder than all the others.
std::vector<float> meanChanges(const cv::Mat& changes) {
    cv::Mat mean;
    cv::reduce(changes, mean, 0, cv::REDUCE_AVG);
    std::vector<float> profile(mean.begin<float>(), mean.end<float>());
    const float usual = std::max(0.5F, medianOf(profile));
    double sum = 0;
    for (float& one : profile) {
        one = std::log1p(one / usual);
        sum += static_cast<double>(one);
    }
    for (float& one : profile) {
        one -= static_cast<float>(sum / static_cast<double>(profile.size()));
    }
    return blurred(std::move(profile));
}

/// What most strips have: lines, which go through all of them, not symbols.
std::vector<float> throughChanges(const cv::Mat& changes) {
    constexpr double kOfMean = 0.2; // of dashes little goes through
    std::vector<float> profile;
    std::vector<float> column(static_cast<std::size_t>(changes.rows));
    for (int x = 0; x < changes.cols; ++x) {
        for (int y = 0; y < changes.rows; ++y) {
            column[static_cast<std::size_t>(y)] = changes.at<float>(y, x);
        }
        const auto low = column.begin() + changes.rows * 35 / 100;
        std::ranges::nth_element(column, low);
        profile.push_back(std::log1p(*low) +
                          static_cast<float>(kOfMean * std::log1p(cv::mean(changes.col(x))[0])));
    }
    return blurred(std::move(profile));
}

float between(const std::vector<float>& values, double place) {
    const int whole = static_cast<int>(std::floor(place));
    if (whole < 0 || whole + 1 >= static_cast<int>(values.size())) {
        return 0;
    }
    const auto part = static_cast<float>(place - whole);
    const auto at = static_cast<std::size_t>(whole);
    return values[at] * (1 - part) + values[at + 1] * part;
}

/// The pitch near `start` at which the profile is most like itself, over all of its length.
double ownPitch(const std::vector<float>& profile, double start, int cells) {
    constexpr double kMostOff = 0.003; // of the pitch
    const std::size_t size = profile.size();
    std::vector<float> likeness(size);
    cv::parallel_for_({0, static_cast<int>(size)}, [&](const cv::Range& range) {
        for (auto shift = static_cast<std::size_t>(range.start);
             shift < static_cast<std::size_t>(range.end); ++shift) {
            float sum = 0;
            for (std::size_t k = 0; k + shift < size; ++k) {
                sum += profile[k] * profile[k + shift];
            }
            likeness[shift] = sum;
        }
    });
    double best = start;
    float most = -1e30F;
    const double step = 0.05 / cells;
    for (double pitch = start * (1 - kMostOff); pitch <= start * (1 + kMostOff); pitch += step) {
        float sum = 0;
        for (int k = 1; k < cells; ++k) {
            sum += between(likeness, k * pitch);
        }
        if (sum > most) {
            most = sum;
            best = pitch;
        }
    }
    return best;
}

/// The comb near `start`: its pitch, and the place around which lines are the same both ways.
Comb bestComb(const cv::Mat& changes, const Comb& start, int cells) {
    constexpr double kFar = 0.25;  // of the pitch from where the middle line is thought to be
    constexpr double kUsual = 0.1; // of the pitch, standard deviation
    constexpr double kAround = 5;  // px to each side
    constexpr double kNear = 2;    // px, within which a line's sides are expected
    Comb best{ownPitch(meanChanges(changes), start.pitch, cells), 0};
    const std::vector<float> through = throughChanges(changes);
    const double middle = (start.pitch - best.pitch) * cells / 2;
    const double from = start.from + middle;
    const double far = kFar * start.pitch + std::abs(middle); // one end may have been right
    const auto folded = [&](double place) {
        float sum = 0;
        for (int k = 0; k <= cells; ++k) {
            sum += between(through, place + k * best.pitch);
        }
        return sum / static_cast<float>(cells + 1);
    };
    constexpr double kStep = 0.125;
    std::vector<float> period; // from − far − kAround on
    for (double off = -far - kAround; off <= far + kAround + kStep; off += kStep) {
        period.push_back(folded(from + off));
    }
    double most = -1;
    for (double off = -far; off <= far; off += kStep) {
        double sum = 0;
        for (double around = 0; around <= kAround; around += kStep) {
            const auto at = [&](double place) {
                const auto index = std::lround((place + far + kAround) / kStep);
                return period[std::min(period.size() - 1, static_cast<std::size_t>(index))];
            };
            sum += std::exp(-around * around / (2 * kNear * kNear)) *
                   static_cast<double>(at(off - around) * at(off + around));
        }
        const double odd = std::max(0.0, std::abs(off) - std::abs(middle)) / (kUsual * start.pitch);
        sum *= std::exp(-odd * odd / 2);
        if (sum > most) {
            most = sum;
            best.from = from + off;
        }
    }
    return best;
}

bool isUpright(const cv::Matx33d& toPage, int columns, int rows) {
    constexpr double kMost = 0.02; // cells that a line leaves its column or row by, end to end
    const cv::Matx33d map = toPage * (1 / toPage(2, 2));
    return std::abs(map(0, 1)) * rows < kMost * std::abs(map(0, 0)) &&
           std::abs(map(1, 0)) * columns < kMost * std::abs(map(1, 1)) &&
           std::abs(map(2, 0)) * columns < kMost / columns &&
           std::abs(map(2, 1)) * rows < kMost / rows;
}

/// Draws the part of a page where a lattice lies.
class Drawer {
  public:
    Drawer(const Page& page, int cell)
        : m_page(page), m_pdf(page.pdf, page.source),
          m_points(m_pdf.document.pagePointSize(page.number - 1)), m_cell(cell) {}

    [[nodiscard]] std::optional<DrawnAgain> drawn(const Lattice& lattice) {
        // px of the page a point
        const cv::Point2d before(m_page.picture.width() / m_points.width(),
                                 m_page.picture.height() / m_points.height());
        const cv::Point2d size = lattice.cellSize(
            {0, 0, static_cast<double>(lattice.columns), static_cast<double>(lattice.rows)});
        std::vector<cv::Point2d> corners;
        for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {0, 1}, {1, 1}}) {
            corners.push_back(lattice.corner(x * lattice.columns, y * lattice.rows));
        }
        const auto [left, right] =
            std::ranges::minmax(corners, {}, [](const cv::Point2d& one) { return one.x; });
        const auto [top, bottom] =
            std::ranges::minmax(corners, {}, [](const cv::Point2d& one) { return one.y; });
        const cv::Point2d grow(m_cell / size.x, m_cell / size.y);
        // Pixel centres are whole numbers on the page.
        const Cut x = cutOf(m_points.width(), grow.x * before.x, (left.x + 0.5) * grow.x - kMargin,
                            (right.x - left.x) * grow.x + 2 * kMargin);
        const Cut y = cutOf(m_points.height(), grow.y * before.y, (top.y + 0.5) * grow.y - kMargin,
                            (bottom.y - top.y) * grow.y + 2 * kMargin);
        QPdfDocumentRenderOptions options;
        options.setScaledSize({x.whole, y.whole});
        options.setScaledClipRect({x.from, y.from, x.asked, y.asked});
        const QImage picture =
            m_pdf.document.render(m_page.number - 1, {x.length, y.length}, options);
        if (picture.isNull()) {
            return std::nullopt;
        }
        DrawnAgain result{printed(picture), lattice};
        if (m_page.isTurnedOver) {
            result.picture.invertPixels();
        }
        const cv::Point2d scale(x.scale / before.x, y.scale / before.y);
        m_toDrawing = cv::Matx33d(scale.x, 0, 0.5 * scale.x - 0.5 - x.from, 0, scale.y,
                                  0.5 * scale.y - 0.5 - y.from, 0, 0, 1);
        result.lattice.toPage = m_toDrawing * lattice.toPage;
        result.lattice.pitch = m_cell;
        return result;
    }

    /// The lattice on the page, by where its lines lie in the drawing that was made last.
    [[nodiscard]] Lattice onPage(const Lattice& inDrawing) const {
        Lattice result = inDrawing;
        result.toPage = m_toDrawing.inv() * inDrawing.toPage;
        return result;
    }

  private:
    const Page& m_page;
    PdfFile m_pdf;
    QSizeF m_points;
    int m_cell;
    cv::Matx33d m_toDrawing = cv::Matx33d::eye();
};

/// The lattice on the lines of its drawing.
Lattice onItsLines(const DrawnAgain& drawing) {
    cv::Mat grey;
    cv::cvtColor(viewOf(drawing.picture), grey, cv::COLOR_BGR2GRAY);
    const cv::Matx33d map = drawing.lattice.toPage * (1 / drawing.lattice.toPage(2, 2));
    const auto cell = static_cast<int>(drawing.lattice.pitch);
    const Comb x =
        bestComb(changesOf(grey, false, cell), {map(0, 0), map(0, 2)}, drawing.lattice.columns);
    const Comb y =
        bestComb(changesOf(grey, true, cell), {map(1, 1), map(1, 2)}, drawing.lattice.rows);
    Lattice result = drawing.lattice;
    result.toPage = cv::Matx33d(x.pitch, 0, x.from, 0, y.pitch, y.from, 0, 0, 1);
    return result;
}

/// Whether the lattice's part of a page is flat but for edges: a scan has grain everywhere.
bool isDrawing(const cv::Mat& page, const Lattice& lattice) {
    constexpr double kLeastFlat = 0.2; // of the places, whose neighbour has the very same colour
    std::vector<cv::Point2f> corners;
    for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {0, 1}, {1, 1}}) {
        corners.emplace_back(lattice.corner(x * lattice.columns, y * lattice.rows));
    }
    const cv::Rect box = cv::boundingRect(corners) & cv::Rect({}, page.size());
    if (box.width < 2 || box.height < 1) {
        return false;
    }
    const cv::Rect left(box.x, box.y, box.width - 1, box.height);
    cv::Mat steps;
    cv::absdiff(page(left), page(left + cv::Point(1, 0)), steps);
    const cv::Mat moved = steps.reshape(1);
    const int flat = static_cast<int>(moved.total()) - cv::countNonZero(moved);
    return flat > kLeastFlat * static_cast<double>(moved.total());
}

} // namespace

std::optional<DrawnAgain> drawnAgain(const Page& page, const Lattice& lattice, int cell) {
    if (page.pdf.isEmpty() || !isUpright(lattice.toPage, lattice.columns, lattice.rows) ||
        !isDrawing(viewOf(page.picture), lattice)) {
        return std::nullopt;
    }
    Drawer drawer(page, cell);
    std::optional<DrawnAgain> drawing = drawer.drawn(lattice);
    if (!drawing) {
        return std::nullopt;
    }
    drawing = drawer.drawn(drawer.onPage(onItsLines(*drawing)));
    if (!drawing) {
        return std::nullopt;
    }
    // Onto whole pixels, which all cells are the same away from.
    cv::Matx33d& map = drawing->lattice.toPage;
    for (int way = 0; way < 2; ++way) {
        map(way, 2) = std::round(map(way, 2) + 0.5) - 0.5;
        map(way, way) = cell;
    }
    return drawing;
}

} // namespace otherskein::trace::detail
