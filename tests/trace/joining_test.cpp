#include "trace/tracing.h"

#include "drawn_page.h"

#include <catch2/catch.hpp>

using namespace otherskein;

namespace {

/// Part of one large chart, from its column `first`.
DrawnPage part(int first, int columns) {
    DrawnPage drawn;
    drawn.columns = columns;
    drawn.cell = [first](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(first + column, row, 5); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    return drawn;
}

void addNumbers(trace::Page& page, const DrawnPage& drawn, int firstColumn, int firstRow) {
    const auto add = [&](double x, double y, int number) {
        page.words.push_back({{x - 6, y - 6, 12, 12}, QString::number(number)});
    };
    for (int c = 0; c < drawn.columns; ++c) {
        if ((firstColumn + c) % 5 == 0) {
            add(drawn.left + (c + 0.5) * drawn.pitch, drawn.top - 14, firstColumn + c);
        }
    }
    for (int r = 0; r < drawn.rows; ++r) {
        if ((firstRow + r) % 5 == 0) {
            add(drawn.left - 14, drawn.top + (r + 0.5) * drawn.pitch, firstRow + r);
        }
    }
}

} // namespace

TEST_CASE("numbers along the edges say where a grid begins") {
    const DrawnPage drawn = part(0, 24);
    trace::Page page = drawn.page();
    addNumbers(page, drawn, 51, 41);
    const auto grids = trace::gridsOn(page);
    REQUIRE(grids.size() == 1);
    CHECK(grids[0].firstColumn == 51);
    CHECK(grids[0].firstRow == 41);
}

TEST_CASE("pages with numbers are joined by them") {
    const DrawnPage left = part(0, 24);
    const DrawnPage right = part(24, 20);
    std::vector<trace::Page> pages{left.page(), right.page()};
    addNumbers(pages[0], left, 1, 1);
    addNumbers(pages[1], right, 25, 1);
    const std::vector<std::vector<trace::FoundGrid>> grids{trace::gridsOn(pages[0]),
                                                           trace::gridsOn(pages[1])};
    const auto pieces = trace::joined(pages, grids);
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[1].place == chart::Cell{24, 0});
    const auto tracing = trace::traced(pages, pieces);
    REQUIRE(tracing);
    CHECK(tracing->chart.grid.columns() == 44);
    CHECK(tracing->chart.grid.rows() == 18);
}

TEST_CASE("pages without numbers are joined where they overlap") {
    const std::vector<trace::Page> pages{part(0, 24).page(), part(21, 20).page()};
    const std::vector<std::vector<trace::FoundGrid>> grids{trace::gridsOn(pages[0]),
                                                           trace::gridsOn(pages[1])};
    const auto pieces = trace::joined(pages, grids);
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[1].place == chart::Cell{21, 0});
}

TEST_CASE("what the other page prints in grey is no symbol of its own, nor doubtful") {
    const DrawnPage left = part(0, 24);
    DrawnPage right = part(20, 20);
    right.cell = [](QPainter& painter, int column, int row) {
        if (column < 4) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(205, 205, 205));
        }
        if (const int kind = kindAt(20 + column, row, 5); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    const std::vector<trace::Page> pages{left.page(), right.page()};
    const std::vector<std::vector<trace::FoundGrid>> grids{trace::gridsOn(pages[0]),
                                                           trace::gridsOn(pages[1])};
    REQUIRE(grids[0].size() == 1);
    REQUIRE(grids[1].size() == 1);
    const std::vector<trace::Piece> pieces{{0, grids[0][0], {0, 0}}, {1, grids[1][0], {20, 0}}};
    const auto tracing = trace::traced(pages, pieces);
    REQUIRE(tracing);
    CHECK(tracing->chart.key.size() == 5);
    CHECK(tracing->doubtful().empty());
    for (std::size_t i = 0; i < tracing->chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing->chart.grid.cellAt(i);
        CHECK((tracing->chart.grid.at(cell) == chart::kBare) ==
              (kindAt(cell.column, cell.row, 5) < 0));
    }
}

TEST_CASE("pages that share nothing go side by side") {
    const std::vector<trace::Page> pages{part(0, 24).page(), part(24, 20).page()};
    const std::vector<std::vector<trace::FoundGrid>> grids{trace::gridsOn(pages[0]),
                                                           trace::gridsOn(pages[1])};
    CHECK(trace::joined(pages, grids).at(1).place == chart::Cell{24, 0});
}
