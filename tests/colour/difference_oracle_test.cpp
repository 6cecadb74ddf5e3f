// CIEDE2000 against two implementations that share no code with ours.
#include "colour/difference.h"

#include "random_lab.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <lcms2.h>

#include <algorithm>
#include <cmath>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

namespace {

/// True within 0.001° of opposite, where littleCMS 2.14 depends on the order of its arguments
/// (between 180° and 180.000001°). CIEDE2000 stretches a by 1.5 at most and so turns this by 1.5
/// times at most.
bool nearlyOpposite(const Lab& one, const Lab& other) {
    const double cross = one.a * other.b - one.b * other.a;
    const double dot = one.a * other.a + one.b * other.b;
    constexpr double kTangent = 1.7453e-5; // of 0.001°
    return dot < 0 && std::abs(cross) <= -dot * kTangent;
}

double byLittleCms(const Lab& one, const Lab& other, const Weights& weights) {
    const cmsCIELab first{one.L, one.a, one.b};
    const cmsCIELab second{other.L, other.a, other.b};
    return cmsCIE2000DeltaE(&first, &second, weights.kL, weights.kC, weights.kH);
}

} // namespace

TEST_CASE("CIEDE2000 agrees with littleCMS over a million random pairs") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    double worst = 0;
    Lab worstOne;
    Lab worstOther;
    int skipped = 0;
    for (int i = 0; i < 1'000'000; ++i) {
        const Lab one = random.anywhere();
        // Near pairs matter most to a stitcher; far ones reach every branch.
        const Lab other = i % 2 == 0 ? random.anywhere() : random.near(one);
        if (nearlyOpposite(one, other)) {
            ++skipped;
            continue;
        }
        const Weights& weights = i % 4 < 2 ? kReferenceWeights : kTextileWeights;
        const double apart =
            std::abs(deltaE00(one, other, weights) - byLittleCms(one, other, weights));
        if (!(apart <= worst)) { // also when it is not a number
            worst = apart;
            worstOne = one;
            worstOther = other;
        }
    }
    CAPTURE(worstOne.L, worstOne.a, worstOne.b, worstOther.L, worstOther.a, worstOther.b);
    // Both work in doubles with some hundred operations on numbers up to 360: 1e-11 would be
    // rounding, a wrong constant or branch is above 1e-6.
    CHECK_THAT(worst, WithinAbs(0, 1e-9));
    // 0.002° of 360° in half a million far pairs are about three.
    CHECK(skipped < 30);
}

TEST_CASE("CIEDE2000 agrees with culori to every digit that it printed") {
    const reference::File table("culori_pairs.csv");
    REQUIRE(table.rows().size() >= 10'000);
    constexpr double kHalfLastDigit = 5e-7;
    constexpr double kRounding = 1e-9;
    for (const reference::Row& row : table.rows()) {
        const Lab one{row.number("L1"), row.number("a1"), row.number("b1")};
        const Lab other{row.number("L2"), row.number("a2"), row.number("b2")};
        CAPTURE(one.L, one.a, one.b, other.L, other.a, other.b);
        REQUIRE_THAT(deltaE00(one, other),
                     WithinAbs(row.number("dE11"), kHalfLastDigit + kRounding));
        REQUIRE_THAT(deltaE00(one, other, kTextileWeights),
                     WithinAbs(row.number("dE21"), kHalfLastDigit + kRounding));
    }
}
