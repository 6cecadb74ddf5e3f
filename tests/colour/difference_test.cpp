#include "colour/difference.h"

#include "random_lab.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

namespace {

Lab ofHue(double L, double chromaOf, double degrees) {
    const double radians = degrees * std::numbers::pi / 180;
    return {L, chromaOf * std::cos(radians), chromaOf * std::sin(radians)};
}

} // namespace

TEST_CASE("CIEDE2000 gives all published pairs in both orders") {
    const reference::File table("sharma_2005_table_1.csv");
    REQUIRE(table.rows().size() == 34);
    int pair = 0;
    for (const reference::Row& row : table.rows()) {
        ++pair;
        CAPTURE(pair);
        const Lab one{row.number("L1"), row.number("a1"), row.number("b1")};
        const Lab other{row.number("L2"), row.number("a2"), row.number("b2")};
        const double expected = row.number("deltaE00");
        // Printed with four decimals.
        CHECK_THAT(deltaE00(one, other), WithinAbs(expected, 5e-5));
        CHECK_THAT(deltaE00(other, one), WithinAbs(expected, 5e-5));
    }
}

TEST_CASE("a colour does not differ from itself") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 10'000; ++i) {
        const Lab lab = random.anywhere();
        CAPTURE(i, lab.L, lab.a, lab.b);
        REQUIRE(deltaE00(lab, lab) == 0);
        REQUIRE(deltaE00(lab, lab, kTextileWeights) == 0);
        REQUIRE(deltaEab(lab, lab) == 0);
        const DifferenceParts parts = differenceParts(lab, lab);
        REQUIRE(parts.dL == 0);
        REQUIRE(parts.dC == 0);
        REQUIRE(parts.dH == 0);
    }
}

TEST_CASE("swapping two colours changes no bit of their difference") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 100'000; ++i) {
        const Lab one = random.anywhere();
        const Lab other = i % 2 == 0 ? random.anywhere() : random.near(one);
        CAPTURE(i, one.L, one.a, one.b, other.L, other.a, other.b);
        REQUIRE(deltaE00(one, other) == deltaE00(other, one));
        REQUIRE(deltaE00(one, other, kTextileWeights) == deltaE00(other, one, kTextileWeights));
        REQUIRE(deltaEab(one, other) == deltaEab(other, one));
    }
}

TEST_CASE("between greys CIEDE2000 is the lightness difference over its weight") {
    // With a = b = 0 only ΔL'/(kL SL) is left. Mean L 60: SL = 1 + 0.015·100/√120
    // = 1.13693063937629.
    CHECK_THAT(deltaE00({55, 0, 0}, {65, 0, 0}), WithinAbs(10 / 1.13693063937629, 1e-12));
    CHECK_THAT(deltaE00({55, 0, 0}, {65, 0, 0}, kTextileWeights),
               WithinAbs(5 / 1.13693063937629, 1e-12));
    // Mean L 50: SL = 1. Black to white is the longest way between greys.
    CHECK_THAT(deltaE00({0, 0, 0}, {100, 0, 0}), WithinAbs(100, 1e-12));
}

TEST_CASE("a grey takes its hue from the colour beside it") {
    // Hue difference 0 and mean hue that of the colour, whatever that hue is. By hand for chroma 10
    // at hue 90, L 50: the a axis is stretched but a = 0, so C' = 10, mean C' 5, SC = 1.225, ΔE =
    // 10/1.225.
    CHECK_THAT(deltaE00({50, 0, 0}, {50, 0, 10}), WithinAbs(10 / 1.225, 1e-12));
    CHECK_THAT(deltaE00({50, 0, 0}, {50, 0, -10}), WithinAbs(10 / 1.225, 1e-12));
}

TEST_CASE("hues on both sides of 0 degrees are near each other") {
    // The same step over 0° and beside it: where the wrap goes wrong the first is many times the
    // second.
    for (const double chromaOf : {1.0, 10.0, 40.0, 90.0}) {
        CAPTURE(chromaOf);
        const double across = deltaE00(ofHue(50, chromaOf, 359), ofHue(50, chromaOf, 1));
        const double before = deltaE00(ofHue(50, chromaOf, 357.5), ofHue(50, chromaOf, 359.5));
        const double after = deltaE00(ofHue(50, chromaOf, 0.5), ofHue(50, chromaOf, 2.5));
        CHECK(across > 0);
        CHECK_THAT(across, WithinAbs((before + after) / 2, 0.005 * across));
    }
}

TEST_CASE("CIEDE2000 is continuous where the red axis is crossed") {
    for (const double b : {1e-6, 1e-12, 1e-300}) {
        CAPTURE(b);
        // Turning both colours by nothing that can be seen must change nothing that can be seen.
        const double above = deltaE00({50, 40, b}, {60, 30, b});
        const double astride = deltaE00({50, 40, b}, {60, 30, -b});
        CHECK_THAT(above, WithinAbs(astride, 1e-5));
    }
}

TEST_CASE("textile weights halve what lightness counts and leave the rest") {
    const Lab one{50, 20, 30};
    CHECK_THAT(deltaE00(one, {62, 20, 30}, kTextileWeights),
               WithinAbs(deltaE00(one, {62, 20, 30}) / 2, 1e-12));
    CHECK(deltaE00(one, {50, 26, 21}, kTextileWeights) == deltaE00(one, {50, 26, 21}));
}

TEST_CASE("the difference of 1976 is the straight distance") {
    CHECK_THAT(deltaEab({50, 0, 0}, {53, 4, 12}), WithinAbs(13, 1e-12)); // 3² + 4² + 12² = 13²
}

TEST_CASE("lightness chroma and hue parts add up to the difference of 1976") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 100'000; ++i) {
        const Lab wanted = random.anywhere();
        const Lab other = i % 2 == 0 ? random.anywhere() : random.near(wanted);
        CAPTURE(i, wanted.L, wanted.a, wanted.b, other.L, other.a, other.b);
        const DifferenceParts parts = differenceParts(wanted, other);
        // ISO/CIE 11664-4: ΔE*ab² = ΔL*² + ΔC*ab² + ΔH*ab².
        REQUIRE_THAT(std::hypot(parts.dL, parts.dC, parts.dH),
                     WithinAbs(deltaEab(wanted, other), 1e-9));
    }
}

TEST_CASE("the parts say which way the other colour lies") {
    const Lab wanted = ofHue(50, 30, 350);
    const DifferenceParts up = differenceParts(wanted, ofHue(60, 40, 10));
    CHECK_THAT(up.dL, WithinAbs(10, 1e-12));
    CHECK_THAT(up.dC, WithinAbs(10, 1e-12));
    // ΔH = 2 √(C1 C2) sin(Δh / 2) = 2 √1200 sin 10°
    CHECK_THAT(up.dH, WithinAbs(2 * std::sqrt(1200.0) * std::sin(std::numbers::pi / 18), 1e-9));
    const DifferenceParts down = differenceParts(ofHue(60, 40, 10), wanted);
    CHECK_THAT(down.dL, WithinAbs(-10, 1e-12));
    CHECK_THAT(down.dC, WithinAbs(-10, 1e-12));
    CHECK_THAT(down.dH, WithinAbs(-up.dH, 1e-12));
}

TEST_CASE("between hues that are opposite the hue part is the sum of both chromas") {
    // 2 √(C1 C2) sin 90°, with C1 = C2 = 5.
    CHECK_THAT(std::abs(differenceParts({50, 3, 4}, {50, -3, -4}).dH), WithinAbs(10, 1e-12));
}
