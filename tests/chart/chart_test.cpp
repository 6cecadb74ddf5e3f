#include "chart/chart.h"

#include "chart/random_charts.h"

#include <catch2/catch.hpp>

using namespace otherskein::chart;

namespace {

/// A A .
/// B A A   with a key of three rows, one of them without stitches.
Chart threeByTwo() {
    Chart chart;
    chart.grid = Grid(3, 2, {0, 0, kBare, 1, 0, 0});
    chart.key.resize(3);
    chart.key[0].pixel = {1, 2, 3};
    chart.key[1].pixel = {4, 5, 6};
    chart.key[2].pixel = {7, 8, 9};
    recount(chart);
    return chart;
}

} // namespace

TEST_CASE("stitches are counted by row of the key, bare cells by none") {
    const Chart chart = threeByTwo();
    CHECK(stitchCounts(chart.grid, 3) == std::vector<int>{4, 1, 0});
    CHECK(stitchCounts(chart.grid, 4) == std::vector<int>{4, 1, 0, 0});
    CHECK(stitchCounts(Grid(5, 5), 1) == std::vector<int>{0});
    CHECK(chart.key[0].stitches == 4);
    CHECK(chart.key[1].stitches == 1);
    CHECK(chart.key[2].stitches == 0);
}

TEST_CASE("a chart is consistent until something in it names what is not there") {
    Chart chart = threeByTwo();
    CHECK(chart.isConsistent());
    CHECK(Chart{}.isConsistent());

    SECTION("a stitch beyond the key") {
        chart.grid.set({2, 0}, 3);
    }
    SECTION("a count that is not true") {
        chart.key[1].stitches = 2;
    }
    SECTION("two rows of one colour") {
        chart.key[2].pixel = chart.key[0].pixel;
    }
    SECTION("a line beyond the right edge") {
        chart.lines.push_back({0, 0, 7, 0, 0});
    }
    SECTION("a line beyond the lower edge") {
        chart.lines.push_back({0, 5, 1, 0, 0});
    }
    SECTION("a line beyond the left edge") {
        chart.lines.push_back({-1, 0, 1, 0, 0});
    }
    SECTION("a line of no length") {
        chart.lines.push_back({2, 2, 2, 2, 0});
    }
    SECTION("a line of no thread") {
        chart.lines.push_back({0, 0, 6, 4, 3});
    }
    CHECK_FALSE(chart.isConsistent());
}

TEST_CASE("a line may run along the edge and belong to a thread without stitches") {
    Chart chart = threeByTwo();
    chart.lines = {{0, 0, 6, 4, 2}, {6, 4, 6, 0, 0}};
    CHECK(chart.isConsistent());
}

TEST_CASE("random charts are consistent") {
    unsigned seed = 1;
    for (const samples::ChartShape& shape : samples::chartShapes()) {
        CHECK(samples::randomChart(shape, seed++).isConsistent());
    }
}
