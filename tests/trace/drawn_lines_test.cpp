// Backstitch along sides of cells, told by the grid drawn exactly.
#include "trace/detail/drawn_lines.h"
#include "trace/detail/drawn_sides.h"
#include "trace/detail/views.h"

#include <QPainter>

#include <catch2/catch.hpp>

#include <functional>

using namespace otherskein;

namespace {

constexpr int kCell = 40;
constexpr int kColumns = 24;
constexpr int kRows = 23;

/// A drawn sheet with slim lines, grey bold ones each tenth, and what `over` draws in cells.
trace::detail::Sheet sheetWith(const std::function<void(QPainter&)>& over) {
    QImage image(kColumns * kCell, kRows * kCell, QImage::Format_BGR888);
    image.fill(Qt::white);
    QPainter painter(&image);
    for (int i = 1; i < kColumns; ++i) {
        const int width = i % 10 == 0 ? 2 : 1;
        painter.fillRect(i * kCell - width / 2, 0, width, image.height(), QColor(90, 90, 90));
    }
    for (int i = 1; i < kRows; ++i) {
        const int width = i % 10 == 0 ? 2 : 1;
        painter.fillRect(0, i * kCell - width / 2, image.width(), width, QColor(90, 90, 90));
    }
    over(painter);
    painter.end();
    trace::detail::Sheet sheet;
    sheet.cell = kCell;
    sheet.columns = kColumns;
    sheet.rows = kRows;
    sheet.straight = trace::detail::viewOf(image).clone();
    return sheet;
}

/// A line along sides, from one corner of a cell to another.
void draw(QPainter& painter, QPoint from, QPoint to, int width) {
    const QPoint low(width / 2, width / 2);
    painter.fillRect(QRect(from * kCell - low, to * kCell + low - QPoint(1, 1)), Qt::black);
}

trace::detail::Backstitch linesOf(const trace::detail::Sheet& sheet,
                                  trace::detail::Backstitch found = {}) {
    return trace::detail::withDrawnLines(sheet, sheet, std::move(found));
}

} // namespace

TEST_CASE("thin thread along drawn sides is told from the grid's lines, on bold ones too") {
    const auto sheet = sheetWith([](QPainter& painter) {
        draw(painter, {4, 6}, {9, 6}, 4);
        draw(painter, {7, 10}, {12, 10}, 4); // on a bold line
        draw(painter, {9, 6}, {9, 9}, 4);
    });
    const trace::detail::Backstitch lines = linesOf(sheet);
    REQUIRE(lines.lines.size() == 3);
    CHECK(lines.lines[0] == chart::Line{8, 12, 18, 12, 0});
    CHECK(lines.lines[1] == chart::Line{14, 20, 24, 20, 0});
    CHECK(lines.lines[2] == chart::Line{18, 12, 18, 18, 0});
    REQUIRE(lines.colours.size() == 1);
    CHECK(lines.colours[0] == colour::Srgb8{0, 0, 0});
    CHECK(lines.over[static_cast<std::size_t>(6 * kColumns + 5)] != 0);
    CHECK(lines.over[static_cast<std::size_t>(2 * kColumns + 5)] == 0);
}

TEST_CASE("drawn thread along a whole row is thread where the same lies elsewhere") {
    const auto pieces = [](QPainter& painter) {
        draw(painter, {0, 6}, {kColumns, 6}, 4);
        draw(painter, {0, 7}, {kColumns, 7}, 4);
        draw(painter, {0, 14}, {kColumns, 14}, 4);
    };
    CHECK(linesOf(sheetWith(pieces)).lines.empty()); // nothing tells
    const auto lines = linesOf(sheetWith([&](QPainter& painter) {
        pieces(painter);
        draw(painter, {4, 17}, {13, 17}, 4);
        draw(painter, {13, 17}, {13, 20}, 4);
    }));
    REQUIRE(lines.lines.size() == 5);
    CHECK(lines.lines[0] == chart::Line{0, 12, 2 * kColumns, 12, 0});
    // At even steps they may be the grid's own, and so may whatever looks as these.
    CHECK(linesOf(sheetWith([](QPainter& painter) {
              for (int i = 5; i < kRows; i += 5) {
                  draw(painter, {0, i}, {kColumns, i}, 4);
              }
              draw(painter, {4, 17}, {13, 17}, 4);
              draw(painter, {13, 17}, {13, 20}, 4);
          })).lines.empty());
}

TEST_CASE("frames of symbols and strokes that reach no corner are no thread") {
    const auto sheet = sheetWith([](QPainter& painter) {
        for (int i = 2; i < 20; i += 3) {
            draw(painter, {i, 4}, {i + 1, 4}, 4);
            draw(painter, {i, 5}, {i + 1, 5}, 4);
            draw(painter, {i, 4}, {i, 5}, 4);
            draw(painter, {i + 1, 4}, {i + 1, 5}, 4);
        }
        painter.fillRect(8 * kCell - 2, 12 * kCell + 6, 4, 28, Qt::black);
    });
    trace::detail::Backstitch found;
    found.lines = {{16, 24, 16, 26, 0}};
    found.colours = {{0, 0, 0}};
    found.widths = {4};
    CHECK(linesOf(sheet, found).lines.empty());
}
