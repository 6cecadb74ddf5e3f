#include "colourway/coverage.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

thread::Ground ground(int count, int over) {
    thread::Ground one;
    one.count = count;
    one.over = over;
    return one;
}

/// Distance from a point to the nearest of the parallel lines x + sign·y = k·side.
double distanceToLegs(double x, double y, double side, double sign) {
    return std::abs(std::remainder(x + sign * y, side)) / std::numbers::sqrt2;
}

/// The covered share counted point by point in one cell of an endless stitched area, where each leg
/// is a band around its diagonal.
double countedCoverage(double side, double legWidth) {
    constexpr int kPoints = 800;
    int covered = 0;
    for (int i = 0; i < kPoints; ++i) {
        for (int j = 0; j < kPoints; ++j) {
            const double x = side * (i + 0.5) / kPoints;
            const double y = side * (j + 0.5) / kPoints;
            covered += distanceToLegs(x, y, side, 1) < legWidth / 2 ||
                               distanceToLegs(x, y, side, -1) < legWidth / 2
                           ? 1
                           : 0;
        }
    }
    return covered / static_cast<double>(kPoints * kPoints);
}

} // namespace

TEST_CASE("coverage has the values worked by hand") {
    // 14 over 1: s = 25.4/14 = 1.81429; 2 strands: sqrt2 * 2 * 0.4 / s = 0.62359; 1 - 0.37641^2.
    CHECK_THAT(coverage(ground(14, 1), 2), WithinAbs(0.858, 5e-4));
    CHECK_THAT(coverage(ground(36, 2), 2), WithinAbs(0.961, 5e-4));
    CHECK_THAT(coverage(ground(36, 2), 1), WithinAbs(0.641, 5e-4));
}

TEST_CASE("coverage agrees with counting points under the legs") {
    for (const auto& [count, over] : {std::pair{14, 1}, {36, 2}, {28, 1}, {18, 1}, {40, 2}}) {
        for (int strands = 1; strands <= 3; ++strands) {
            for (const double width : {0.2, 0.4, 0.55}) {
                const thread::Ground one = ground(count, over);
                CAPTURE(count, over, strands, width);
                // A grid of 800 is off by at most the points along the bands' edges.
                CHECK_THAT(
                    coverage(one, strands, width),
                    WithinAbs(countedCoverage(thread::cellSideMm(one), strands * width), 0.004));
            }
        }
    }
}

TEST_CASE("more strands never cover less and enough cover all") {
    for (int count = thread::limits::kLeastCount; count <= thread::limits::kMostCount; ++count) {
        for (const int over : {1, 2}) {
            double before = 0;
            for (int strands = 1; strands <= 24; ++strands) {
                const double now = coverage(ground(count, over), strands);
                CAPTURE(count, over, strands, before, now);
                REQUIRE(now <= 1);
                REQUIRE((now > before || now == 1));
                before = now;
            }
        }
    }
    CHECK_THAT(coverage(ground(36, 1), 2), WithinAbs(1, 0));
    CHECK_THAT(coverage(ground(14, 1), 0), WithinAbs(0, 0));
}

TEST_CASE("coverage agrees with points thrown at a stitched area") {
    // The legs of a whole patch of crosses as strips from hole to hole, each n·w wide; a point is
    // covered where it is nearer to some leg's middle line than half of that. Nothing is folded
    // back into one cell, and no formula of the code under test is used.
    std::mt19937 random(20261126);
    for (const auto& [count, over, strands, width] : {std::tuple{14, 1, 2, 0.4},
                                                      {36, 2, 1, 0.4},
                                                      {36, 2, 2, 0.4},
                                                      {11, 1, 3, 0.35},
                                                      {28, 1, 1, 0.3},
                                                      {18, 1, 1, 0.4},
                                                      {32, 2, 3, 0.25},
                                                      {40, 2, 1, 0.45},
                                                      {25, 1, 1, 0.75},
                                                      {80, 2, 1, 0.1},
                                                      {5, 2, 6, 0.5},
                                                      {14, 1, 6, 0.4}}) {
        const thread::Ground one = ground(count, over);
        const double side = 25.4 * over / count;
        std::uniform_real_distribution<double> place(2 * side,
                                                     3 * side); // a cell amid five by five
        constexpr int kPoints = 1'000'000;
        int covered = 0;
        for (int i = 0; i < kPoints; ++i) {
            const double x = place(random);
            const double y = place(random);
            bool under = false;
            for (int column = 0; column < 5 && !under; ++column) {
                for (int row = 0; row < 5 && !under; ++row) {
                    const double u = x - column * side;
                    const double v = y - row * side;
                    // Along and across the two diagonals of that cell.
                    const double root = std::numbers::sqrt2;
                    const double along = (u + v) / root;
                    const double across = std::abs(u - v) / root;
                    const double along2 = (u + side - v) / root;
                    const double across2 = std::abs(u + v - side) / root;
                    const double half = strands * width / 2;
                    under = (across < half && along > -half && along < side * root + half) ||
                            (across2 < half && along2 > -half && along2 < side * root + half);
                }
            }
            covered += under ? 1 : 0;
        }
        CAPTURE(count, over, strands, width);
        CHECK_THAT(coverage(one, strands, width), WithinAbs(covered / double(kPoints), 0.002));
    }
}

TEST_CASE("widths of strands by fibre, measured ones first") {
    thread::Thread cotton;
    CHECK(usualPlyWidthMm(cotton) == 0.40);
    thread::Thread wool;
    wool.fibre = QStringLiteral(" Wool ");
    CHECK(usualPlyWidthMm(wool) > usualPlyWidthMm(cotton));
    PlyWidths widths;
    CHECK(widths.of(wool) == usualPlyWidthMm(wool));
    widths.measuredMm[QStringLiteral("wool")] = 0.9;
    CHECK(widths.of(wool) == 0.9);
    CHECK(widths.of(cotton) == 0.40);
    // Ten strands side by side that lie 4.3 mm wide.
    CHECK_THAT(plyWidthFromSample(10, 4.3).value_or(0), WithinAbs(0.43, 1e-12));
    CHECK_FALSE(plyWidthFromSample(0, 4));
    CHECK_FALSE(plyWidthFromSample(10, 0));
    CHECK_FALSE(plyWidthFromSample(1, 40));
}

TEST_CASE("the fewest strands that cover: one fewer would not") {
    for (const int count : {14, 18, 28, 36}) {
        for (const int over : {1, 2}) {
            const auto enough = strandsToCover(ground(count, over), kPlyWidthMm);
            REQUIRE(enough);
            CAPTURE(count, over, *enough);
            CHECK(coverage(ground(count, over), *enough) >= kCovers);
            CHECK((*enough == 1 || coverage(ground(count, over), *enough - 1) < kCovers));
        }
    }
    CHECK_FALSE(strandsToCover(ground(5, 2), 0.2));
    CHECK(strandsToCover(ground(36, 2), kPlyWidthMm) == 2);
}
