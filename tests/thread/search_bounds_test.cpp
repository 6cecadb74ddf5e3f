// What the searches rely on: a bound may be too cautious, never too bold.
#include "colour/difference_bound.h"

#include "random_pools.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace otherskein;
using namespace otherskein::thread;
using colour::DifferenceBound;
using colour::Lab;
using LabBox = DifferenceBound::LabBox;

namespace {

constexpr unsigned kBoundsSeed = 20240304;
constexpr std::array<colour::Weights, 3> kWeights{
    colour::kReferenceWeights, colour::kTextileWeights, colour::Weights{1, 2, 0.5}};

/// Where the formula is least tame, by turns.
Lab nasty(RandomPools& random, int i) {
    switch (i % 6) {
    case 0:
        return random.ofHue(230, 320);
    case 1:
        return kNastyWanted[static_cast<std::size_t>(i / 6) % kNastyWanted.size()];
    case 2:
        return random.near({random.between(0, 100), 0, 0}, 2);
    case 3:
        return random.ofHue(0, 360);
    case 4:
        return {random.between(0, 100), 0, 0};
    default:
        return random.anywhere();
    }
}

/// `lab` turned by `radians` about grey and scaled away from it.
Lab turned(const Lab& lab, double radians, double scale) {
    const double c = scale * std::cos(radians);
    const double s = scale * std::sin(radians);
    return {lab.L, c * lab.a - s * lab.b, s * lab.a + c * lab.b};
}

Lab partner(RandomPools& random, const Lab& wanted, int i) {
    switch (i % 8) {
    case 0:
        return random.near(wanted, 3);
    case 1: // next to the same hue: from far below a rounding error to a degree
        return turned(wanted, std::pow(10.0, random.between(-17, -2)) * (i % 16 < 8 ? 1 : -1),
                      random.between(0.2, 2));
    case 2: // next to the opposite hue
        return turned({random.between(0, 100), -wanted.a, -wanted.b},
                      std::pow(10.0, random.between(-17, -1)) * (i % 16 < 8 ? 1 : -1),
                      random.between(0.02, 2));
    case 3: // exactly opposite
        return {wanted.L, -wanted.a / 16, -wanted.b / 16};
    case 4:
        return {random.between(0, 100), wanted.a, wanted.b};
    case 5:
        return random.ofHue(230, 320);
    default:
        return nasty(random, random.whole(0, 1000));
    }
}

double inside(RandomPools& random, double least, double most) {
    // The corners and edges of a box are where a bound breaks first.
    switch (random.whole(0, 3)) {
    case 0:
        return least;
    case 1:
        return most;
    default:
        return random.between(least, std::nextafter(most, 1e9));
    }
}

LabBox boxAround(RandomPools& random, const Lab& one, int i) {
    constexpr std::array<double, 6> kReaches{0, 1e-6, 0.5, 5, 40, 200};
    const double size = kReaches[static_cast<std::size_t>(i) % kReaches.size()];
    const auto below = [&] { return random.between(0, size + 1e-300); };
    LabBox box{std::max(0.0, one.L - below()),
               std::min(100.0, one.L + below()),
               one.a - below(),
               one.a + below(),
               one.b - below(),
               one.b + below()};
    return box;
}

} // namespace

TEST_CASE("no colour within the limit is passed over") {
    CAPTURE(kBoundsSeed);
    RandomPools random(kBoundsSeed);
    int passedOver = 0;
    constexpr int kPairs = 1'200'000;
    for (int i = 0; i < kPairs; ++i) {
        const Lab wanted = nasty(random, i);
        const Lab other = partner(random, wanted, i / 6);
        const colour::Weights& weights = kWeights[static_cast<std::size_t>(i) % kWeights.size()];
        const DifferenceBound bound(wanted, weights);
        const double exact = colour::deltaE00(wanted, other, weights);
        const DifferenceBound::Reach reach = bound.reach(exact);
        // The tightest limit that still admits the pair.
        const bool held = bound.mayBeWithin(other, exact) && other.L >= reach.leastL &&
                          other.L <= reach.mostL &&
                          std::abs(other.a - wanted.a) <= reach.radiusAb &&
                          std::abs(other.b - wanted.b) <= reach.radiusAb;
        if (!held) {
            CAPTURE(i, exact, wanted.L, wanted.a, wanted.b, other.L, other.a, other.b);
            CAPTURE(reach.radiusAb, reach.leastL, reach.mostL);
            REQUIRE(bound.mayBeWithin(other, exact));
            REQUIRE(held);
        }
        passedOver += bound.mayBeWithin(other, exact / 2) ? 0 : 1;
    }
    // A bound that lets everything through would be right and useless.
    CHECK(passedOver > kPairs / 2);
}

TEST_CASE("no colour of a box is nearer than the box's least difference") {
    CAPTURE(kBoundsSeed);
    RandomPools random(kBoundsSeed + 1);
    int useful = 0;
    constexpr int kBoxes = 120'000;
    for (int i = 0; i < kBoxes; ++i) {
        const Lab wanted = nasty(random, i);
        const LabBox box = boxAround(random, partner(random, wanted, i / 6), i / 48);
        const colour::Weights& weights = kWeights[static_cast<std::size_t>(i) % kWeights.size()];
        const double least = DifferenceBound(wanted, weights).leastIn(box);
        useful += least > 0 ? 1 : 0;
        for (int n = 0; n < 12; ++n) {
            const Lab other{inside(random, box.leastL, box.mostL),
                            inside(random, box.leastA, box.mostA),
                            inside(random, box.leastB, box.mostB)};
            const double exact = colour::deltaE00(wanted, other, weights);
            if (!(least <= exact)) {
                CAPTURE(i, wanted.L, wanted.a, wanted.b, other.L, other.a, other.b);
                CAPTURE(box.leastA, box.mostA, box.leastB, box.mostB);
                REQUIRE(least <= exact);
            }
        }
    }
    CHECK(useful > kBoxes / 3);
}

TEST_CASE("a box of one colour is bounded near its difference") {
    CAPTURE(kBoundsSeed);
    RandomPools random(kBoundsSeed + 2);
    double share = 0;
    constexpr int kCount = 20'000;
    for (int i = 0; i < kCount; ++i) {
        const Lab wanted = random.ofHue(0, 360);
        const Lab other = random.near(wanted, 6);
        const LabBox box{other.L, other.L, other.a, other.a, other.b, other.b};
        share += DifferenceBound(wanted).leastIn(box) / colour::deltaE00(wanted, other) / kCount;
    }
    // Measured: 0.8; the searches are only as fast as this is sharp.
    CHECK(share > 0.6);
}

TEST_CASE("hues that differ by less than their products can show keep their rotation term") {
    // ΔH'² = 2 (C1'C2' - a1'a2' - b1b2) loses all its digits here, yet the mixed term is linear in
    // ΔH' and so is far larger than the square.
    int asked = 0;
    for (double chroma = 20; chroma <= 120; chroma += 12.5) {
        for (double turn = 1e-9; turn < 1e-5; turn *= 1.3) {
            for (const double sign : {-1.0, 1.0}) {
                const Lab wanted{40, 0.0872 * chroma, -0.9962 * chroma};
                const Lab other = turned(wanted, sign * turn, 0.8);
                const double exact = colour::deltaE00(wanted, other);
                CAPTURE(chroma, turn, sign, exact);
                REQUIRE(DifferenceBound(wanted).mayBeWithin(other, exact));
                ++asked;
            }
        }
    }
    CHECK(asked > 300);
}

TEST_CASE("a box that touches the opposite hue keeps its rotation term") {
    // For exactly opposite hues the sign of ΔH' follows the hue angles, not the side on which the
    // other colour lies, so "hue and chroma differ in opposite directions" cannot be told there.
    int asked = 0;
    for (double a = 40; a <= 128; a += 8) {
        for (double b = -40; b < 0; b += 1) {
            for (const double scale : {1.0 / 8, 1.0 / 16, 1.0 / 32}) {
                const Lab wanted{50, a, b};
                const Lab other{50, -a * scale, -b * scale};
                const double exact = colour::deltaE00(wanted, other);
                const DifferenceBound bound(wanted);
                CAPTURE(a, b, scale, exact);
                REQUIRE(bound.leastIn({50, 50, other.a, other.a, other.b, other.b}) <= exact);
                REQUIRE(bound.leastIn({50, 50, other.a, other.a + 1, other.b, other.b}) <= exact);
                REQUIRE(bound.leastIn({50, 50, other.a - 1, other.a, other.b, other.b}) <= exact);
                REQUIRE(bound.mayBeWithin(other, exact));
                ++asked;
            }
        }
    }
    CHECK(asked > 1000);
}
