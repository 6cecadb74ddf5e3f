#include "colour/difference_bound.h"

#include "random_lab.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace otherskein::colour;

namespace {

constexpr std::array<Weights, 3> kWeights{kReferenceWeights, kTextileWeights, Weights{1, 2, 0.5}};

/// Pairs where the formula is least tame: any, near, and in the blues, where the rotation term is
/// large.
Lab partner(RandomLab& random, const Lab& wanted, int i) {
    return i % 2 == 0 ? random.near(wanted) : random.anywhere();
}

Lab inTheBlues(const Lab& lab) {
    return {lab.L, lab.a / 4, -std::abs(lab.b)};
}

} // namespace

TEST_CASE("a colour within the limit is never passed over") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    int passedOver = 0;
    for (int i = 0; i < 200'000; ++i) {
        Lab wanted = random.anywhere();
        Lab other = partner(random, wanted, i);
        if (i % 4 >= 2) {
            wanted = inTheBlues(wanted);
            other = inTheBlues(other);
        }
        const Weights& weights = kWeights[static_cast<std::size_t>(i) % kWeights.size()];
        const DifferenceBound bound(wanted, weights);
        const double exact = deltaE00(wanted, other, weights);
        CAPTURE(i, wanted.L, wanted.a, wanted.b, other.L, other.a, other.b, exact);
        // The tightest limit that still admits the pair.
        REQUIRE(bound.mayBeWithin(other, exact));
        const DifferenceBound::Reach reach = bound.reach(exact);
        REQUIRE(other.L >= reach.leastL);
        REQUIRE(other.L <= reach.mostL);
        REQUIRE(std::abs(other.a - wanted.a) <= reach.radiusAb);
        REQUIRE(std::abs(other.b - wanted.b) <= reach.radiusAb);
        passedOver += bound.mayBeWithin(other, exact / 2) ? 0 : 1;
    }
    // A bound that lets everything through would be right and useless.
    CHECK(passedOver > 100'000);
}

TEST_CASE("opposite hues are never passed over within the limit") {
    for (int a = -90; a <= 90; a += 15) {
        for (int b = -90; b <= 90; b += 15) {
            CAPTURE(a, b);
            const Lab wanted{40, double(a), double(b)};
            const Lab other{60, -0.5 * a, -0.5 * b};
            CHECK(DifferenceBound(wanted).mayBeWithin(other, deltaE00(wanted, other)));
        }
    }
}

TEST_CASE("the reach of a small limit is small") {
    const DifferenceBound::Reach reach = DifferenceBound({50, 20, 10}).reach(2);
    CHECK(reach.radiusAb > 2);
    CHECK(reach.radiusAb < 15);
    CHECK(reach.mostL - reach.leastL < 8);
}
