#include "drawn_sheet.h"
#include "traced_page.h"

#include "trace/detail/drawn_again.h"
#include "trace/detail/drawn_comb.h"
#include "trace/detail/drawn_groups.h"
#include "trace/detail/drawn_hidden.h"
#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTemporaryDir>

#include <functional>
#include <map>
#include <random>
#include <set>

using namespace otherskein;

namespace {

constexpr int kWide = 60;
constexpr int kHigh = 48;
constexpr double kSmall = 2.5; // points: about ten pixels at 300 dpi

/// What stands in a cell: -1 is nothing. Patches, as in a chart.
int symbolOf(int column, int row, int symbols) {
    const int patch = (column / 5 * 7 + row / 4 * 3) % (symbols + 1);
    return patch == symbols ? -1 : patch;
}

using DrawSymbol = std::function<void(QPainter&, int symbol)>; // in a cell of 1 × 1

/// A page of A6 with a grid of lines, bold every ten.
void writeGrid(const QString& path, int symbols, const DrawSymbol& draw) {
    QPdfWriter writer(path);
    writer.setPageSize(QPageSize(QPageSize::A6));
    writer.setPageMargins({});
    QPainter painter(&writer);
    const double points = writer.resolution() / 72.0;
    painter.scale(points, points);
    painter.translate(40.3, 60.7);
    for (int i = 0; i <= kWide || i <= kHigh; ++i) {
        painter.setPen(QPen(Qt::black, i % 10 == 0 ? 0.5 : 0.2));
        if (i <= kWide) {
            painter.drawLine(QPointF(i * kSmall, 0), QPointF(i * kSmall, kHigh * kSmall));
        }
        if (i <= kHigh) {
            painter.drawLine(QPointF(0, i * kSmall), QPointF(kWide * kSmall, i * kSmall));
        }
    }
    for (int row = 0; row < kHigh; ++row) {
        for (int column = 0; column < kWide; ++column) {
            if (const int symbol = symbolOf(column, row, symbols); symbol >= 0) {
                painter.save();
                painter.translate(column * kSmall, row * kSmall);
                painter.scale(kSmall, kSmall);
                draw(painter, symbol);
                painter.restore();
            }
        }
    }
}

/// Symbols that differ by little: rings, some with a gap, some with a bar.
void drawAlike(QPainter& painter, int symbol) {
    painter.setPen(QPen(Qt::black, 0.07));
    const QRectF ring(0.28, 0.28, 0.44, 0.44);
    const int gap = symbol % 2 == 0 ? 0 : 60; // degrees
    painter.drawArc(ring, gap / 2 * 16, (360 - gap) * 16);
    if (symbol / 2 == 1) {
        painter.drawLine(QPointF(0.28, 0.5), QPointF(0.72, 0.5));
    } else if (symbol / 2 == 2) {
        painter.drawLine(QPointF(0.28, 0.56), QPointF(0.72, 0.44));
    }
}

/// Cells whose symbol is not that of most cells of their key's row, and rows of the key.
struct ToldCells {
    int wrong = 0;
    std::size_t rows = 0;
    std::size_t doubtful = 0;
};

ToldCells toldCells(const trace::Page& page, int symbols) {
    const trace::Tracing tracing = tracedWhole(page);
    REQUIRE(tracing.chart.grid.columns() == kWide);
    REQUIRE(tracing.chart.grid.rows() == kHigh);
    std::map<chart::KeyIndex, std::map<int, int>> counts;
    for (int row = 0; row < kHigh; ++row) {
        for (int column = 0; column < kWide; ++column) {
            ++counts[tracing.chart.grid.at({column, row})][symbolOf(column, row, symbols)];
        }
    }
    ToldCells told;
    for (const auto& [key, of] : counts) {
        int all = 0;
        int most = 0;
        for (const auto& [symbol, count] : of) {
            all += count;
            most = std::max(most, count);
        }
        told.wrong += all - most;
    }
    told.rows = tracing.chart.key.size();
    told.doubtful = tracing.doubtful().size();
    return told;
}

/// A drawing whose grid was found as `move` leaves its outline is read where the grid lies.
void checkFoundAgain(const std::function<void(QPolygonF&)>& move) {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("alike.pdf"));
    writeGrid(path, 6, drawAlike);
    const trace::Page page = trace::readPage(path);
    const auto grids = trace::gridsOn(page);
    REQUIRE_FALSE(grids.empty());
    trace::Piece piece{0, grids[0], {}};
    move(piece.grid.outline);
    const auto drawn =
        trace::detail::drawnSheetsOf(std::span(&page, 1), std::span<const trace::Piece>(&piece, 1));
    REQUIRE(drawn);
    for (int i = 0; i < 4; ++i) {
        const QPointF off = drawn->pieces[0].grid.outline[i] - grids[0].outline[i];
        CHECK(std::hypot(off.x(), off.y()) < 1.0);
    }
}

} // namespace

TEST_CASE("small symbols of a PDF that differ by little are told apart by drawing them larger") {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("alike.pdf"));
    constexpr int kSymbols = 6;
    writeGrid(path, kSymbols, drawAlike);
    const ToldCells told = toldCells(trace::readPage(path), kSymbols);
    CHECK(told.wrong == 0);
    CHECK(told.rows == kSymbols);
    CHECK(told.doubtful == 0);
}

TEST_CASE("fills of a PDF that differ by a few levels are not joined") {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("fills.pdf"));
    constexpr int kSymbols = 5;
    writeGrid(path, kSymbols, [](QPainter& painter, int symbol) {
        painter.fillRect(QRectF(0.1, 0.1, 0.8, 0.8), QColor(180, 60 + 5 * symbol, 90));
    });
    const ToldCells told = toldCells(trace::readPage(path), kSymbols);
    CHECK(told.wrong == 0);
    CHECK(told.rows == kSymbols);
}

TEST_CASE("cells drawn again begin at whole pixels, and the same symbol has the same pixels") {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("alike.pdf"));
    writeGrid(path, 6, drawAlike);
    const trace::Page page = trace::readPage(path);
    const auto grids = trace::gridsOn(page);
    REQUIRE_FALSE(grids.empty());
    const auto drawing = trace::detail::drawnAgain(page, trace::detail::latticeOf(grids[0]), 40);
    REQUIRE(drawing);
    const cv::Point2d corner = drawing->lattice.corner(0, 0) + cv::Point2d(0.5, 0.5);
    CHECK(std::abs(corner.x - std::round(corner.x)) < 1e-6);
    CHECK(drawing->lattice.corner(kWide, kHigh).x - drawing->lattice.corner(0, 0).x ==
          Approx(40 * kWide));
    // The first and the last cell of a symbol, whole columns apart.
    const cv::Mat view = trace::detail::viewOf(drawing->picture);
    const auto cellAt = [&](int column, int row) {
        return view({static_cast<int>(corner.x) + 40 * column + 8,
                     static_cast<int>(corner.y) + 40 * row + 8, 24, 24});
    };
    REQUIRE(symbolOf(0, 0, 6) == symbolOf(35, 28, 6));
    CHECK(cv::norm(cellAt(0, 0), cellAt(35, 28), cv::NORM_INF) < 60);
}

TEST_CASE("a drawing tells where its grid lies, though it was found a little beside") {
    checkFoundAgain([](QPolygonF& outline) { outline.translate(2.2, -1.9); }); // a tenth of a cell
}

TEST_CASE("a drawing's grid is upright, though it was found leaning a little") {
    checkFoundAgain(
        [](QPolygonF& outline) { outline[2] += QPointF(-3, 2); }); // a quarter of a cell
}

TEST_CASE("a scan in a PDF is read as a scan") {
    const QTemporaryDir folder;
    const QString drawnPath = folder.filePath(QStringLiteral("drawn.pdf"));
    writeGrid(drawnPath, 3, [](QPainter& painter, int symbol) {
        painter.fillRect(QRectF(0.2, 0.2, 0.6, symbol == 0 ? 0.6 : 0.3), Qt::black);
        if (symbol == 2) {
            painter.fillRect(QRectF(0.2, 0.6, 0.2, 0.2), Qt::black);
        }
    });
    QImage scan = trace::readPage(drawnPath).picture;
    std::mt19937 random(5);
    std::normal_distribution<double> grain(0, 4);
    cv::Mat view = trace::detail::viewOf(scan);
    cv::GaussianBlur(view, view, {}, 0.6);
    for (int y = 0; y < view.rows; ++y) {
        uchar* row = view.ptr(y);
        for (int x = 0; x < 3 * view.cols; ++x) {
            row[x] = cv::saturate_cast<uchar>(0.95 * row[x] + grain(random));
        }
    }
    const QString path = folder.filePath(QStringLiteral("scan.pdf"));
    {
        QPdfWriter writer(path);
        writer.setPageSize(QPageSize(QPageSize::A6));
        writer.setPageMargins({});
        QPainter painter(&writer);
        painter.drawImage(QRect(0, 0, writer.width(), writer.height()), scan);
    }
    const trace::Page page = trace::readPage(path);
    REQUIRE_FALSE(page.pdf.isEmpty());
    CHECK_FALSE(trace::detail::drawnSheetsOf(
        std::span(&page, 1), std::vector<trace::Piece>{{0, trace::gridsOn(page).at(0), {}}}));
    const ToldCells told = toldCells(page, 3);
    CHECK(told.wrong == 0);
}

TEST_CASE("a drawn cell is the same when moved by a pixel, and not with a gap in it") {
    const trace::detail::Sheet sheet = sheetWith(4, [](QPainter& painter, int i) {
        painter.translate(i == 1 ? 1 : 0, i == 2 ? 0.4 : 0);
        painter.setPen(QPen(Qt::black, 3));
        painter.drawEllipse(QRectF(11, 11, 18, 18));
        if (i == 3) {
            painter.fillRect(QRectF(25, 17, 6, 5), Qt::white);
        }
    });
    const auto cells = trace::detail::drawnCells(std::span(&sheet, 1));
    const trace::detail::DrawnShape ring(cells[0]);
    CHECK(ring.isSame(cells[1]));
    CHECK(ring.unlikeness(trace::detail::DrawnShape(cells[2])) < 0.2);
    CHECK_FALSE(ring.isSame(cells[3]));
    CHECK_FALSE(ring.isPlain());
    CHECK(ring.unlikeness(trace::detail::DrawnShape(cells[3])) > 0.4);
}

TEST_CASE("drawn cells begin where they come to be of the fewest kinds") {
    // Fills with a broad bar: a cell that begins elsewhere shows its neighbour's fill.
    cv::Mat picture(12 * 40 + 24, 12 * 40 + 24, CV_8UC3, cv::Scalar::all(255));
    std::mt19937 random(3);
    for (int row = 0; row < 12; ++row) {
        for (int column = 0; column < 12; ++column) {
            const cv::Rect cell(12 + 40 * column, 12 + 40 * row, 40, 40);
            picture(cell).setTo(cv::Scalar::all(90.0 + 40.0 * static_cast<double>(random() % 4)));
            picture(cv::Rect(cell.x + 6, cell.y + 24, 28, 8)).setTo(cv::Scalar::all(0));
        }
    }
    CHECK(trace::detail::fewestKinds(picture, {12, 12}, 40, 12, 12, {-7, 5}, {6}) ==
          cv::Point(0, 0));
    CHECK(trace::detail::fewestKinds(picture, {12, 5}, 40, 12, 12, {-7, 5}, {-3, 6.8}) ==
          cv::Point(0, 7));
    CHECK(trace::detail::fewestKinds(picture, {4, 12}, 40, 12, 12, {8.2}, {3}) == cv::Point(8, 0));
}
