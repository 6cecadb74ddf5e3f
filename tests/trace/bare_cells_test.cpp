#include "trace/tracing.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>

using namespace otherskein;

namespace {

/// Cells that are bare and should not be, and the other way round.
int wronglyBare(const trace::Tracing& tracing, int kinds) {
    int wrong = 0;
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        const bool isBare = kindAt(cell.column, cell.row, kinds) < 0;
        wrong += isBare == (tracing.chart.grid.at(cell) == chart::kBare) ? 0 : 1;
    }
    return wrong;
}

} // namespace

TEST_CASE("small marks that recur are symbols, not dirt") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(QColor(60, 60, 60));
        const int kind = kindAt(column, row, 3);
        if (kind == 0) {
            painter.drawRect(QRectF(25, 72, 50, 8)); // a low bar
        } else if (kind == 1) {
            painter.drawEllipse(QRectF(44, 44, 14, 14)); // a dot
        } else if (kind == 2) {
            painter.setBrush(QColor(210, 210, 210));
            painter.drawRect(QRectF(30, 30, 40, 40)); // pale
        }
    };
    CHECK(wronglyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("paper in the shade is bare, a pale fill is not") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 3); kind == 0) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(238, 244, 250));
        } else if (kind > 0) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [](QPainter& painter) { // falls off towards the right
        QLinearGradient shade(500, 0, 900, 0);
        shade.setColorAt(0, QColor(0, 0, 0, 0));
        shade.setColorAt(1, QColor(0, 0, 0, 40));
        painter.fillRect(QRectF(0, 0, 1100, 900), shade);
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    // All but some of the 432, in places where a shaded fill and lighter paper do not touch.
    CHECK(wronglyBare(tracing, 3) < 20);
}

TEST_CASE("a chart without bare cells has none, also of pale fills alone") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        const std::array<QColor, 3> colours{QColor(235, 226, 236), QColor(226, 240, 232),
                                            QColor(244, 232, 214)};
        painter.fillRect(QRectF(0, 0, 100, 100),
                         colours[static_cast<std::size_t>((column / 3 + row / 2) % 3)]);
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(std::ranges::count(tracing.chart.grid.cells(), chart::kBare) == 0);
}

TEST_CASE("an outline along the cell's rim is a symbol where nothing is bare") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if ((column / 2 + row) % 3 != 0) {
            drawShape(painter, 1 + (column / 2 + row) % 3);
            return;
        }
        painter.setPen(QPen(QColor(20, 20, 20), 6));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(13, 13, 74, 74));
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(std::ranges::count(tracing.chart.grid.cells(), chart::kBare) == 0);
}
