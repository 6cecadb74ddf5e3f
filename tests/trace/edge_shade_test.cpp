#include "trace/tracing.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace otherskein;

namespace {

DrawnPage shadedPage(int shadedColumns, int shadedRows, int kinds) {
    DrawnPage drawn;
    drawn.cell = [=, rows = drawn.rows](QPainter& painter, int column, int row) {
        if (column < shadedColumns || row >= rows - shadedRows) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(212, 214, 218));
        }
        if (const int kind = kindAt(column, row, kinds); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    return drawn;
}

} // namespace

TEST_CASE(
    "columns and rows in grey along a page's sides repeat another page: no colour of theirs") {
    const auto [columns, rows] = GENERATE(std::pair{3, 0}, std::pair{0, 2}, std::pair{2, 3});
    CAPTURE(columns, rows);
    const trace::Tracing tracing = tracedWhole(shadedPage(columns, rows, 4).page());
    CHECK(tracing.chart.key.size() == 4);
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        CHECK((tracing.chart.grid.at(cell) == chart::kBare) ==
              (kindAt(cell.column, cell.row, 4) < 0));
    }
}

TEST_CASE(
    "a shaded band with little on it is none of a chart's colours where no other cell is tinted") {
    const bool hasTints = GENERATE(false, true);
    CAPTURE(hasTints);
    DrawnPage drawn;
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (column < 3) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(212, 214, 218));
        } else if (hasTints && row == 9) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(230, 214, 190));
        }
        if (row >= 16) {
            drawShape(painter, 4);
        } else if (const int kind = kindAt(column, row, 4); kind >= 0 && column > 3) {
            drawShape(painter, kind);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK((tracing.chart.grid.at({0, 0}) == chart::kBare) == !hasTints);
    CHECK((tracing.chart.grid.at({2, 9}) == chart::kBare) == !hasTints);
    CHECK((tracing.chart.grid.at({0, 16}) == tracing.chart.grid.at({9, 16})) == !hasTints);
}

TEST_CASE("a border that is stitched in one pale fill stays") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (column < 2) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(212, 214, 218));
        } else if (const int kind = kindAt(column, row, 4); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(tracing.chart.key.size() == 5);
    CHECK(tracing.chart.grid.at({0, 0}) != chart::kBare);
    CHECK(tracing.chart.grid.at({1, 9}) == tracing.chart.grid.at({0, 0}));
}

TEST_CASE("a sea of one fill with one sign along the foot stays") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (row >= 14) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(190, 210, 230));
            drawShape(painter, 4);
        } else if (const int kind = kindAt(column, row, 4); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(tracing.chart.key.size() == 5);
    CHECK(tracing.chart.key[tracing.chart.grid.at({3, 16})].pixel.b > 220);
}
