#include "trace/detail/drawn_again.h"

#include "trace/detail/drawn_comb.h"
#include "trace/detail/on_paper.h"
#include "trace/detail/pdf_file.h"
#include "trace/detail/views.h"

#include <QPdfDocumentRenderOptions>

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kMargin = 12; // px around the grid

/// Along one way: how large the whole page would be and what is cut from it. Qt takes both in whole
/// pixels, and one pixel less of the cut for its scale; together they are as good as exact. PDFium
/// takes a page whose parts are asked for to be of whole points, less what is beyond.
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
    const double taken = std::floor(points) / points;
    // scale = (asked − 1) / length · whole / points · taken
    for (int more = 0; more < 400; ++more) {
        const double share = static_cast<double>(cut.length + more) / cut.length;
        const double whole = std::round(wanted * points / (share * taken));
        const double scale = share * whole / points * taken;
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

/// The lattice with lines that are exactly upright, as a drawing's are: where what was found on the
/// page leans a little, its lines were faint. None where it leans too much for that.
std::optional<Lattice> uprightOf(const Lattice& lattice) {
    constexpr double kMost = 0.35; // cells by which a corner may lie off
    const double columns = lattice.columns;
    const double rows = lattice.rows;
    const std::array<cv::Point2d, 4> corners{lattice.corner(0, 0), lattice.corner(columns, 0),
                                             lattice.corner(columns, rows),
                                             lattice.corner(0, rows)};
    const double left = (corners[0].x + corners[3].x) / 2;
    const double top = (corners[0].y + corners[1].y) / 2;
    const double wide = ((corners[1].x + corners[2].x) / 2 - left) / columns;
    const double high = ((corners[2].y + corners[3].y) / 2 - top) / rows;
    if (wide <= 0 || high <= 0) {
        return std::nullopt;
    }
    Lattice result = lattice;
    result.toPage = cv::Matx33d(wide, 0, left, 0, high, top, 0, 0, 1);
    const bool isNear = std::ranges::all_of(std::array{0, 1, 2, 3}, [&](int i) {
        const double column = i == 1 || i == 2 ? columns : 0;
        const double row = i >= 2 ? rows : 0;
        const cv::Point2d off = result.corner(column, row) - corners[static_cast<std::size_t>(i)];
        return std::abs(off.x) < kMost * wide && std::abs(off.y) < kMost * high;
    });
    return isNear ? std::optional(result) : std::nullopt;
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
        DrawnAgain result{printed(picture), lattice, lattice};
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

/// The lattice on the lines of its drawing, and where else it may begin.
struct OnLines {
    Lattice lattice;
    std::vector<double> alongX;
    std::vector<double> alongY;
};

OnLines onItsLines(const DrawnAgain& drawing) {
    cv::Mat grey;
    cv::cvtColor(viewOf(drawing.picture), grey, cv::COLOR_BGR2GRAY);
    const cv::Matx33d map = drawing.lattice.toPage * (1 / drawing.lattice.toPage(2, 2));
    const auto cell = static_cast<int>(drawing.lattice.pitch);
    std::array<Comb, 2> combs;
    cv::parallel_for_({0, 2}, [&](const cv::Range& range) {
        for (int way = range.start; way < range.end; ++way) {
            combs[static_cast<std::size_t>(way)] =
                bestComb(changesOf(grey, way == 1, cell), {map(way, way), map(way, 2)},
                         way == 1 ? drawing.lattice.rows : drawing.lattice.columns);
        }
    });
    const auto& [x, y] = combs;
    OnLines result{drawing.lattice, x.others, y.others};
    result.lattice.toPage = cv::Matx33d(x.pitch, 0, x.from, 0, y.pitch, y.from, 0, 0, 1);
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

std::optional<DrawnAgain> drawnAgain(const Page& page, const Lattice& lattice, int cell,
                                     bool isExact) {
    const std::optional<Lattice> upright = uprightOf(lattice);
    if (page.pdf.isEmpty() || !upright || !isDrawing(viewOf(page.picture), lattice)) {
        return std::nullopt;
    }
    Drawer drawer(page, cell);
    std::optional<DrawnAgain> drawing = drawer.drawn(*upright);
    if (!drawing) {
        return std::nullopt;
    }
    OnLines lines;
    if (!isExact) {
        lines = onItsLines(*drawing);
        drawing = drawer.drawn(drawer.onPage(lines.lattice));
        if (!drawing) {
            return std::nullopt;
        }
    }
    // Onto whole pixels, which all cells are the same away from.
    cv::Matx33d& map = drawing->lattice.toPage;
    for (int way = 0; way < 2; ++way) {
        map(way, 2) = std::round(map(way, 2) + 0.5) - 0.5;
        map(way, way) = cell;
    }
    if (!isExact) {
        const cv::Point first(static_cast<int>(std::lround(map(0, 2) + 0.5)),
                              static_cast<int>(std::lround(map(1, 2) + 0.5)));
        const cv::Point shift = fewestKinds(viewOf(drawing->picture), first, cell, lattice.columns,
                                            lattice.rows, lines.alongX, lines.alongY);
        map(0, 2) += shift.x;
        map(1, 2) += shift.y;
    }
    drawing->onPage = drawer.onPage(drawing->lattice);
    return drawing;
}

} // namespace otherskein::trace::detail
