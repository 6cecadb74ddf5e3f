#include "colourway/coverage.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

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
