// Charts that print no lines, or hardly any: what stands in their cells tells them.
#include "drawn_page.h"
#include "trace/detail/lattice_frame.h"
#include "trace/detail/lattice_grounds.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

#include <array>
#include <functional>

using namespace otherskein;

namespace {

constexpr int kUnlinedColumns = 34;
constexpr int kUnlinedRows = 27;
constexpr double kUnlinedCell = 34;
constexpr double kUnlinedLeft = 110;
constexpr double kUnlinedTop = 90;

/// A page of cells without any lines; `cell` draws a square from 0, 0 to 100, 100.
trace::Page unlinedPage(const std::function<void(QPainter&, int column, int row)>& cell,
                        const std::function<void(QPainter&)>& over = {}) {
    QImage picture(1400, 1200, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int row = 0; row < kUnlinedRows; ++row) {
        for (int column = 0; column < kUnlinedColumns; ++column) {
            painter.save();
            painter.translate(kUnlinedLeft + column * kUnlinedCell,
                              kUnlinedTop + row * kUnlinedCell);
            painter.scale(kUnlinedCell / 100, kUnlinedCell / 100);
            cell(painter, column, row);
            painter.restore();
        }
    }
    if (over) {
        over(painter);
    }
    painter.end();
    trace::Page page;
    page.source = QStringLiteral("drawn");
    page.picture = picture.convertToFormat(QImage::Format_BGR888);
    return page;
}

/// Rings of `kinds` kinds around several middles, as motifs have.
int ringAt(int column, int row, int kinds) {
    return (std::abs(column % 11 - 5) + std::abs(row % 9 - 4)) / 2 % kinds;
}

void drawSign(QPainter& painter, int kind, const QColor& colour) {
    painter.setPen(QPen(colour, 7));
    if (kind == 0) {
        painter.drawEllipse(QRectF(22, 22, 56, 56));
    } else if (kind == 1) {
        painter.fillRect(QRectF(25, 25, 50, 50), colour);
    } else if (kind == 2) {
        painter.drawLine(QPointF(25, 25), QPointF(75, 75));
        painter.drawLine(QPointF(75, 25), QPointF(25, 75));
    } else {
        painter.drawLine(QPointF(20, 50), QPointF(80, 50));
        painter.drawLine(QPointF(50, 20), QPointF(50, 80));
    }
}

void checkFound(const trace::Page& page) {
    const auto grids = trace::gridsOn(page);
    REQUIRE_FALSE(grids.empty());
    CHECK(grids[0].columns == kUnlinedColumns);
    CHECK(grids[0].rows == kUnlinedRows);
}

} // namespace

TEST_CASE("Grounds that change from cell to cell tell a grid without lines") {
    checkFound(unlinedPage([](QPainter& painter, int column, int row) {
        constexpr std::array<QRgb, 4> kFills{0xffd8d8de, 0xff1f604c, 0xffa9c0a8, 0xff558a84};
        const int kind = (std::abs(column % 9 - 4) + std::abs(row % 9 - 4)) / 2 % 4;
        painter.fillRect(QRectF(0, 0, 100, 100), QColor(kFills[static_cast<std::size_t>(kind)]));
        drawSign(painter, kind, kind == 1 ? Qt::white : Qt::black);
    }));
}

TEST_CASE("A frame and the gaps between signs tell a grid without lines") {
    checkFound(unlinedPage([](QPainter& painter, int column,
                              int row) { drawSign(painter, ringAt(column, row, 3), Qt::black); },
                           [](QPainter& painter) {
                               painter.setPen(QPen(Qt::black, 4));
                               painter.drawRect(QRectF(kUnlinedLeft, kUnlinedTop,
                                                       kUnlinedColumns * kUnlinedCell,
                                                       kUnlinedRows * kUnlinedCell));
                           }));
}

TEST_CASE("Grounds change at the lines of a chart only, anywhere in a picture") {
    const auto fill = [](QPainter& painter, int column, int row) {
        painter.fillRect(QRectF(0, 0, 101, 101), ringAt(column, row, 2) == 0 ? Qt::blue : Qt::red);
    };
    const trace::Page page = unlinedPage(fill);
    const cv::Mat bgr = trace::detail::viewOf(page.picture);
    trace::detail::Lattice lattice;
    lattice.pitch = kUnlinedCell;
    for (const double off : {0.0, 0.5}) {
        lattice.toPage = cv::Matx33d(kUnlinedCell, 0, kUnlinedLeft + off * kUnlinedCell - 0.5, 0,
                                     kUnlinedCell, kUnlinedTop + off * kUnlinedCell - 0.5, 0, 0, 1);
        CHECK(trace::detail::groundsChangeAtLines(
                  bgr, lattice, {0, 0, kUnlinedColumns - 1, kUnlinedRows - 1}) == (off == 0));
    }
}

TEST_CASE("A grid ends where its lines do") {
    using namespace trace::detail;
    DrawnPage drawn;
    const trace::Page page = drawn.page();
    const cv::Mat bgr = viewOf(page.picture);
    Lattice lattice;
    lattice.pitch = drawn.pitch;
    lattice.toPage = cv::Matx33d(drawn.pitch, 0, drawn.left, 0, drawn.pitch, drawn.top, 0, 0, 1);
    const cv::Rect all(0, 0, drawn.columns, drawn.rows);
    const LineMaps maps = lineMapsOf(bgr, 4);
    CHECK(endedByLines(bgr, maps, lattice, all) == all);
    CHECK(endedByLines(bgr, maps, lattice, {0, -1, drawn.columns, drawn.rows + 1}) == all);
    CHECK(endedByLines(bgr, maps, lattice, {0, 0, drawn.columns + 2, drawn.rows}) == all);
}

TEST_CASE("The edge of the sheet does not say where a grid's few lines end") {
    using namespace trace::detail;
    cv::Mat bgr(900, 1200, CV_8UC3, cv::Scalar::all(255));
    for (const int row : {0, 10, 20}) {
        cv::line(bgr, {100, 100 + 20 * row}, {700, 100 + 20 * row}, {}, 2);
    }
    for (const int column : {0, 10, 20, 30}) {
        cv::line(bgr, {100 + 20 * column, 100}, {100 + 20 * column, 500}, {}, 2);
    }
    cv::line(bgr, {10, 800}, {1190, 800}, {}, 2);
    Lattice lattice;
    lattice.pitch = 20;
    lattice.toPage = cv::Matx33d(20, 0, 100, 0, 20, 100, 0, 0, 1);
    const LineMaps maps = lineMapsOf(bgr, 4);
    // Shade beside the chart was taken for columns.
    CHECK(endedByLines(bgr, maps, lattice, {0, 0, 32, 20}) == cv::Rect(0, 0, 30, 20));
}
