#include "trace/tracing.h"

#include "base/input_error.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <array>
#include <map>
#include <set>

using namespace otherskein;

namespace {

/// Cells that share a row of the key with more cells of another kind. A kind may have more rows
/// than one, which a hand joins; none may share one.
int wrongCells(const chart::Grid& grid, int kinds) {
    std::map<int, std::map<int, int>> rows;
    for (std::size_t i = 0; i < grid.cells().size(); ++i) {
        const chart::Cell cell = grid.cellAt(i);
        ++rows[grid.at(cell)][kindAt(cell.column, cell.row, kinds)];
    }
    int wrong = 0;
    for (const auto& [row, counts] : rows) {
        int most = 0;
        int all = 0;
        int main = 0;
        for (const auto& [kind, count] : counts) {
            all += count;
            if (count > most) {
                most = count;
                main = kind;
            }
        }
        wrong += all - most;
        CHECK((row == chart::kBare) == (main < 0));
    }
    return wrong;
}

DrawnPage shapes() {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 5); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    return drawn;
}

} // namespace

TEST_CASE("open and filled, large and small shapes are told apart on a straight page") {
    const trace::Tracing tracing = tracedWhole(shapes().page());
    CHECK(tracing.chart.grid.columns() == 24);
    CHECK(tracing.chart.grid.rows() == 18);
    CHECK(tracing.chart.key.size() >= 5);
    CHECK(wrongCells(tracing.chart.grid, 5) == 0);
    CHECK(tracing.chart.isConsistent());
}

TEST_CASE("a symbol is one row of the key wherever its cells fall on the page's pixels") {
    DrawnPage drawn = shapes();
    drawn.pitch = GENERATE(20.3, 23.57, 27.3, 31.61);
    CAPTURE(drawn.pitch);
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(tracing.chart.key.size() == 5);
    CHECK(wrongCells(tracing.chart.grid, 5) == 0);
    CHECK(tracing.doubtful().size() <= 4);
}

TEST_CASE("a turned page reads as a straight one does") {
    DrawnPage drawn = shapes();
    drawn.turn = GENERATE(-3.0, -0.7, 1.3, 3.0);
    CAPTURE(drawn.turn);
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(tracing.chart.grid.columns() == 24);
    CHECK(tracing.chart.grid.rows() == 18);
    CHECK(wrongCells(tracing.chart.grid, 5) == 0);
}

TEST_CASE("tinted paper is bare") {
    DrawnPage drawn = shapes();
    drawn.paper = QColor(236, 226, 200);
    CHECK(wrongCells(tracedWhole(drawn.page()).chart.grid, 5) == 0);
}

TEST_CASE("coloured cells keep their colours, a pale one is not bare") {
    const std::array<QColor, 4> colours{QColor(40, 90, 160), QColor(200, 60, 70),
                                        QColor(205, 70, 86), QColor(250, 244, 220)};
    DrawnPage drawn;
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 4); kind >= 0) {
            painter.fillRect(QRectF(0, 0, 100, 100), colours[static_cast<std::size_t>(kind)]);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(wrongCells(tracing.chart.grid, 4) == 0);
    REQUIRE(tracing.chart.key.size() == 4);
    for (const QColor& colour : colours) {
        const bool known = std::ranges::any_of(tracing.chart.key, [&](const chart::KeyRow& row) {
            return std::abs(row.pixel.r - colour.red()) < 6 &&
                   std::abs(row.pixel.g - colour.green()) < 6 &&
                   std::abs(row.pixel.b - colour.blue()) < 6;
        });
        CAPTURE(colour.name().toStdString());
        CHECK(known);
    }
}

TEST_CASE("a cell that is smudged is doubtful") {
    DrawnPage drawn = shapes();
    drawn.over = [&](QPainter& painter) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(QColor(60, 60, 60, 190));
        painter.drawRect(QRectF(drawn.left + 5.2 * drawn.pitch, drawn.top + 4.3 * drawn.pitch,
                                0.5 * drawn.pitch, 0.4 * drawn.pitch));
    };
    const auto doubtful = tracedWhole(drawn.page()).doubtful();
    CHECK(std::ranges::find(doubtful, chart::Cell{5, 4}) != doubtful.end());
    CHECK(doubtful.size() < 20);
}

TEST_CASE("backstitch becomes lines and leaves the cells under it as they are") {
    DrawnPage drawn;
    // Bare above and right of the line, where it is clear; symbols below and left of it.
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 5); kind >= 0 && row >= 8) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [&](QPainter& painter) {
        painter.setPen(QPen(QColor(20, 20, 20), 5, Qt::SolidLine, Qt::FlatCap));
        const auto at = [&](double column, double row) {
            return QPointF(drawn.left + column * drawn.pitch, drawn.top + row * drawn.pitch);
        };
        painter.drawLine(at(3, 4), at(9, 4));
        painter.drawLine(at(9, 4), at(9, 8));
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    for (int row = 0; row < 8; ++row) {
        for (int column = 0; column < 24; ++column) {
            CAPTURE(row, column);
            CHECK(tracing.chart.grid.at({column, row}) == chart::kBare);
        }
    }
    std::set<std::array<int, 4>> lines;
    for (const chart::Line& line : tracing.chart.lines) {
        lines.insert({line.x1, line.y1, line.x2, line.y2});
    }
    CHECK(lines == std::set<std::array<int, 4>>{{6, 8, 18, 8}, {18, 8, 18, 16}});
}

TEST_CASE("a grid with nothing on it is refused") {
    DrawnPage drawn;
    const trace::Page page = drawn.page();
    const auto grids = trace::gridsOn(page);
    REQUIRE(grids.size() == 1);
    const std::vector<trace::Piece> pieces{{0, grids[0], {}}};
    CHECK_THROWS_WITH(trace::traced(std::span(&page, 1), pieces),
                      "drawn: expected a chart with stitches, found a grid of 24 × 18 with nothing "
                      "on it");
}

TEST_CASE("tracing stops where it is told to") {
    const trace::Page page = shapes().page();
    const auto grids = trace::gridsOn(page);
    const std::vector<trace::Piece> pieces{{0, grids.at(0), {}}};
    CHECK_FALSE(trace::traced(std::span(&page, 1), pieces, [](double done) { return done < 0.3; }));
}

TEST_CASE("a page of ruled lines alone has no grid") {
    DrawnPage drawn;
    drawn.columns = 0;
    drawn.over = [](QPainter& painter) {
        for (int y = 100; y < 800; y += 26) {
            painter.drawLine(100, y, 1000, y);
        }
    };
    CHECK(trace::gridsOn(drawn.page()).empty());
}
