#include "chart/mending.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <random>

using namespace otherskein;
using namespace otherskein::chart;

namespace {

/// Letters name rows of the key (a is 0), a dot is bare.
Grid gridOf(const std::vector<std::string>& rows) {
    Grid grid(static_cast<int>(rows.front().size()), static_cast<int>(rows.size()));
    for (int row = 0; row < grid.rows(); ++row) {
        for (int column = 0; column < grid.columns(); ++column) {
            const char letter =
                rows[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
            if (letter != '.') {
                grid.set({column, row}, static_cast<KeyIndex>(letter - 'a'));
            }
        }
    }
    return grid;
}

Chart chartOf(const std::vector<std::string>& rows, std::size_t keyRows) {
    Chart chart;
    chart.grid = gridOf(rows);
    for (std::size_t i = 0; i < keyRows; ++i) {
        KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(10 * i), 50, 90};
        row.code = QString(QChar(u'a' + static_cast<char16_t>(i)));
        chart.key.push_back(row);
    }
    recount(chart);
    return chart;
}

} // namespace

TEST_CASE("a line of cells holds both ends and never skips") {
    std::mt19937 random(20261);
    std::uniform_int_distribution<int> place(-30, 30);
    for (int round = 0; round < 500; ++round) {
        const Cell from{place(random), place(random)};
        const Cell to{place(random), place(random)};
        const std::vector<Cell> cells = cellsBetween(from, to);
        CAPTURE(from.column, from.row, to.column, to.row);
        CHECK(cells.front() == from);
        CHECK(cells.back() == to);
        const int across = std::abs(to.column - from.column);
        const int down = std::abs(to.row - from.row);
        REQUIRE(static_cast<int>(cells.size()) == std::max(across, down) + 1);
        for (std::size_t i = 1; i < cells.size(); ++i) {
            CHECK(std::abs(cells[i].column - cells[i - 1].column) <= 1);
            CHECK(std::abs(cells[i].row - cells[i - 1].row) <= 1);
            // Nowhere more than half a cell off the true line.
            const double off =
                std::abs(static_cast<double>(to.row - from.row) * (cells[i].column - from.column) -
                         static_cast<double>(to.column - from.column) * (cells[i].row - from.row));
            CHECK(off <= 0.5 * std::max(across, down) + 1e-9);
        }
    }
}

TEST_CASE("a line of one cell is that cell") {
    CHECK(cellsBetween({3, 4}, {3, 4}) == std::vector<Cell>{{3, 4}});
}

TEST_CASE("a region goes over sides and not over corners") {
    const Grid grid = gridOf({"aab", "ba.", "ab."});
    CHECK(regionOf(grid, {0, 0}).size() == 3);
    CHECK(regionOf(grid, {0, 2}) == std::vector<Cell>{{0, 2}});
    CHECK(regionOf(grid, {2, 1}).size() == 2); // bare ground is a region too
}

TEST_CASE("a region is what a slow search for connected cells finds") {
    std::mt19937 random(77);
    std::uniform_int_distribution<int> letter(0, 2);
    for (int round = 0; round < 30; ++round) {
        Grid grid(13, 9);
        for (KeyIndex& cell : grid.cells()) {
            const int name = letter(random);
            cell = name == 2 ? kBare : static_cast<KeyIndex>(name);
        }
        const Cell start{6, 4};
        // Grows by one ring until nothing joins.
        std::vector<bool> in(grid.cells().size());
        in[grid.indexOf(start)] = true;
        for (bool grew = true; std::exchange(grew, false);) {
            for (std::size_t i = 0; i < in.size(); ++i) {
                const Cell at = grid.cellAt(i);
                for (const Cell& next :
                     {Cell{at.column - 1, at.row}, Cell{at.column + 1, at.row},
                      Cell{at.column, at.row - 1}, Cell{at.column, at.row + 1}}) {
                    if (!in[i] && grid.contains(next) && in[grid.indexOf(next)] &&
                        grid.at(at) == grid.at(start)) {
                        in[i] = true;
                        grew = true;
                    }
                }
            }
        }
        std::vector<bool> found(in.size());
        for (const Cell& cell : regionOf(grid, start)) {
            CHECK_FALSE(found[grid.indexOf(cell)]); // each once
            found[grid.indexOf(cell)] = true;
        }
        CHECK(found == in);
    }
}

TEST_CASE("setting cells says which area changed and leaves out what lies outside") {
    Grid grid = gridOf({"aaaa", "aaaa", "aaaa"});
    const std::vector<Cell> cells{{1, 1}, {3, 2}, {4, 2}, {-1, 0}};
    CHECK(setCells(grid, cells, 1) == Area{1, 1, 3, 2});
    CHECK(grid == gridOf({"aaaa", "abaa", "aaab"}));
    CHECK(setCells(grid, cells, 1).isEmpty());
}

TEST_CASE("a replaced row leaves no stitch and no line behind") {
    Chart chart = chartOf({"ab", "ba"}, 3);
    chart.lines = {{0, 0, 2, 2, 0}, {0, 2, 2, 0, 1}};
    const Chart after = withRowReplaced(chart, 0, 2);
    CHECK(after.grid == gridOf({"cb", "bc"}));
    CHECK(after.lines[0].key == 2);
    CHECK(after.lines[1].key == 1);
    CHECK_FALSE(isUsed(after, 0));
    CHECK(after.key[0].stitches == 0);
    CHECK(after.key[2].stitches == 2);
    CHECK(after.isConsistent());
}

TEST_CASE("a row that only lines name is used") {
    Chart chart = chartOf({"a"}, 2);
    CHECK_FALSE(isUsed(chart, 1));
    chart.lines = {{0, 0, 2, 2, 1}};
    CHECK(isUsed(chart, 1));
    CHECK(lineCounts(chart) == std::vector<int>{0, 1});
}

TEST_CASE("later rows move up when a row goes and everything keeps its thread") {
    Chart chart = chartOf({"ac", ".c"}, 3);
    chart.lines = {{0, 0, 2, 2, 2}};
    const Chart after = withoutRow(chart, 1);
    CHECK(after.grid == gridOf({"ab", ".b"}));
    CHECK(after.lines[0].key == 1);
    REQUIRE(after.key.size() == 2);
    CHECK(after.key[1].code == QStringLiteral("c"));
    CHECK(after.isConsistent());
}

TEST_CASE("a free pixel is the wanted one or the nearest that nobody has") {
    Key key(3);
    key[0].pixel = {0, 0, 0};
    key[1].pixel = {0, 0, 1};
    key[2].pixel = {9, 9, 9};
    CHECK(freePixel(key, {5, 5, 5}) == colour::Srgb8{5, 5, 5});
    CHECK(freePixel(key, {9, 9, 9}, KeyIndex{2}) == colour::Srgb8{9, 9, 9});
    const colour::Srgb8 near = freePixel(key, {0, 0, 0});
    CHECK(near.r + near.g + near.b == 1);
    CHECK(near != key[1].pixel);
}

TEST_CASE("a full key still has a free pixel in the corner of sRGB") {
    Key key;
    while (key.size() < kMostKeyRows) {
        KeyRow row;
        row.pixel = freePixel(key, {255, 255, 255});
        key.push_back(row);
    }
    const colour::Srgb8 last = freePixel(key, {255, 255, 255});
    CHECK(std::ranges::find(key, last, &KeyRow::pixel) == key.end());
    CHECK(last.r >= 240);
}

TEST_CASE("the motif under a line is the one that most of it runs through") {
    Motifs motifs;
    motifs.columns = 10;
    motifs.rows = 1;
    motifs.of = {0, 0, 0, 0, kNoMotif, 1, 1, kNoMotif, kNoMotif, kNoMotif};
    motifs.motifs.resize(2);
    CHECK(motifUnder(motifs, {2, 0.5}, {7, 0.5}) == MotifIndex{0}); // two cells each: the first
    CHECK(motifUnder(motifs, {3.5, 0.5}, {7, 0.5}) == MotifIndex{1});
    CHECK(motifUnder(motifs, {-20, 0.5}, {2, 0.5}) == MotifIndex{0});
    CHECK_FALSE(motifUnder(motifs, {7.2, 0.5}, {9.5, 0.5}));
    CHECK_FALSE(motifUnder(motifs, {2, -3}, {2, -1}));
    CHECK(motifUnder(motifs, {5.5, 0.5}, {5.5, 0.5}) == MotifIndex{1}); // a point
}
