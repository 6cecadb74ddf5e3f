// The mean hue of CIEDE2000 jumps where two hues are 180° apart, and rounding may throw a pair that
// is exactly there to either side. The header of difference.h states the rule; random pairs never
// meet the case.
#include "colour/difference.h"

#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

namespace {

Lab fromHue(double L, double chromaOf, double degrees) {
    const double radians = degrees * std::numbers::pi / 180;
    return {L, chromaOf * std::cos(radians), chromaOf * std::sin(radians)};
}

} // namespace

TEST_CASE("exactly opposite hues take the plain mean hue whichever colour comes first") {
    const reference::File table("opposite_hues.csv");
    REQUIRE(table.rows().size() > 10);
    for (const reference::Row& row : table.rows()) {
        const Lab one{row.number("L1"), row.number("a1"), row.number("b1")};
        const Lab other{row.number("L2"), row.number("a2"), row.number("b2")};
        CAPTURE(one.L, one.a, one.b, other.L, other.a, other.b);
        // Printed with six decimals.
        CHECK_THAT(deltaE00(one, other), WithinAbs(row.number("deltaE00"), 5e-7));
        CHECK(deltaE00(one, other) == deltaE00(other, one));
    }
}

TEST_CASE("opposite hues worked out from an angle keep to the side below 180 degrees") {
    // Sine and cosine round, so these pairs lie a hair to either side of opposite. The oracle is a
    // pair turned by 1e-6°, which lies clearly below 180° and so takes the plain mean; that moves
    // the answer by less than 1e-5 where the formula is smooth.
    constexpr double kHair = 1e-6;
    double largestJump = 0;
    int pairs = 0;
    for (int hue = 0; hue < 180; hue += 3) {
        for (const double oneChroma : {0.5, 5.0, 30.0, 90.0}) {
            for (const double otherChroma : {0.7, 12.0, 30.0, 75.0}) {
                CAPTURE(hue, oneChroma, otherChroma);
                const Lab one = fromHue(40, oneChroma, hue);
                const Lab other = fromHue(65, otherChroma, hue + 180.0);
                const double below = deltaE00(one, fromHue(65, otherChroma, hue + 180.0 - kHair));
                const double above = deltaE00(one, fromHue(65, otherChroma, hue + 180.0 + kHair));
                const double exact = deltaE00(one, other);
                REQUIRE_THAT(exact, WithinAbs(below, 1e-5));
                REQUIRE(exact == deltaE00(other, one));
                largestJump = std::max(largestJump, std::abs(above - below));
                ++pairs;
            }
        }
    }
    CHECK(pairs == 960);
    // Without a jump the checks above could not tell one side from the other.
    CHECK(largestJump > 1);
}

TEST_CASE("hues that are clearly past opposite take the mean on the other side") {
    // A ten-thousandth of a degree past 180° is data and not rounding: Sharma 2005 Table 1 parts
    // pairs 10 and 11 (7.1792 and 7.2195) by 0.0023°.
    const Lab one = fromHue(50, 40, 30);
    const double below = deltaE00(one, fromHue(50, 40, 210 - 1e-4));
    const double above = deltaE00(one, fromHue(50, 40, 210 + 1e-4));
    CHECK(std::abs(above - below) > 0.1);
}
