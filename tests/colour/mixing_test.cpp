#include "colour/mixing.h"

#include "colour/conversion.h"
#include "colour/difference.h"
#include "random_lab.h"

#include <catch2/catch.hpp>

#include <array>

using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

namespace {

constexpr Lab kBlack{0, 0, 0};
constexpr Lab kWhite{100, 0, 0};
/// A mix goes to XYZ and back; 500 times the rounding of f is below this.
constexpr double kRounding = 1e-9;

} // namespace

TEST_CASE("half black and half white reflect half the light") {
    // Y = 0.5, L = 116 · 0.5^(1/3) - 16 = 116 · 0.793700526 - 16 = 76.069261; not 50, which
    // averaging L would give.
    const Lab grey = apparentColour(kWhite, kBlack, 0.5);
    CHECK_THAT(grey.L, WithinAbs(76.069261, 5e-7));
    CHECK_THAT(chroma(grey), WithinAbs(0, kRounding));
    CHECK_THAT(xyzFromLab(grey).Y, WithinAbs(0.5, 1e-12));
}

TEST_CASE("a mid grey thread over 0.858 of white cloth by Murray-Davies") {
    // Two strands on 14 count cover 0.858. Thread L 50: Y = (66/116)³ = 0.184186518.
    // Y = 0.858 · 0.184186518 + 0.142 · 1 = 0.300032033; L = 116 · 0.300032033^(1/3) - 16
    // = 61.656986.
    CHECK_THAT(apparentColour({50, 0, 0}, kWhite, 0.858).L, WithinAbs(61.656986, 5e-7));
}

TEST_CASE("a coloured thread over coloured cloth by Murray-Davies") {
    // Thread L 40 a 50 b 30, fabric L 90 a 0 b 10, coverage 0.7. f of each, then cubes:
    // thread fy = 56/116 = 0.482758621, fx = fy + 0.1 = 0.582758621, fz = fy - 0.15 = 0.332758621;
    //   X/Xn 0.197909262, Y 0.112509738, Z/Zn 0.036845796
    // fabric fy = 106/116 = 0.913793103, fx = fy, fz = fy - 0.05 = 0.863793103;
    //   X/Xn 0.763033540, Y 0.763033540, Z/Zn 0.644509313
    // mix: X/Xn 0.367446546, Y 0.307666879, Z/Zn 0.219144851;
    //   cube roots 0.716250145, 0.675087783, 0.602897881
    //
    // L = 116 fy - 16, a = 500 (fx - fy), b = 200 (fy - fz)
    const Lab seen = apparentColour({40, 50, 30}, {90, 0, 10}, 0.7);
    CHECK_THAT(seen.L, WithinAbs(62.310183, 5e-7));
    CHECK_THAT(seen.a, WithinAbs(20.581181, 5e-7));
    CHECK_THAT(seen.b, WithinAbs(14.437980, 5e-7));
}

TEST_CASE("coverage 0 shows the ground and coverage 1 the thread") {
    const Lab thread{35, 60, -20};
    const Lab ground{92, -1, 6};
    CHECK_THAT(deltaEab(apparentColour(thread, ground, 0), ground), WithinAbs(0, kRounding));
    CHECK_THAT(deltaEab(apparentColour(thread, ground, 1), thread), WithinAbs(0, kRounding));
}

TEST_CASE("more coverage brings the area steadily nearer to the thread") {
    const Lab thread{35, 60, -20};
    const Lab ground{92, -1, 6};
    double previous = deltaEab(thread, ground) + 1;
    for (int step = 0; step <= 20; ++step) {
        CAPTURE(step);
        const double left = deltaEab(apparentColour(thread, ground, step / 20.0), thread);
        CHECK(left < previous);
        previous = left;
    }
}

TEST_CASE("a mix of a colour with itself is that colour") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 1'000; ++i) {
        const Lab lab = random.anywhere();
        CAPTURE(i, lab.L, lab.a, lab.b);
        const std::array<Share, 3> shares{Share{lab, 1}, Share{lab, 0.25}, Share{lab, 7}};
        REQUIRE_THAT(deltaEab(mixed(shares), lab), WithinAbs(0, kRounding));
    }
}

TEST_CASE("the order of the parts of a mix does not matter") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 1'000; ++i) {
        const Lab one = random.anywhere();
        const Lab other = random.anywhere();
        CAPTURE(i, one.L, one.a, one.b, other.L, other.a, other.b);
        const std::array<Share, 2> ahead{Share{one, 2}, Share{other, 1}};
        const std::array<Share, 2> back{Share{other, 1}, Share{one, 2}};
        REQUIRE_THAT(deltaEab(mixed(ahead), mixed(back)), WithinAbs(0, kRounding));
    }
}

TEST_CASE("only the proportion of the weights matters") {
    const std::array<Share, 2> small{Share{{30, 40, 10}, 1}, Share{{80, -20, 50}, 2}};
    const std::array<Share, 2> large{Share{{30, 40, 10}, 50}, Share{{80, -20, 50}, 100}};
    CHECK_THAT(deltaEab(mixed(small), mixed(large)), WithinAbs(0, kRounding));
}

TEST_CASE("a part of weight 0 leaves no trace") {
    const std::array<Share, 2> shares{Share{{30, 40, 10}, 3}, Share{{80, -20, 50}, 0}};
    CHECK_THAT(deltaEab(mixed(shares), {30, 40, 10}), WithinAbs(0, kRounding));
}

TEST_CASE("strand counts mix as weights do") {
    const Xyz one{0.2, 0.1, 0.4};
    const Xyz other{0.8, 0.7, 0.1};
    // (1 · one + 3 · other) / 4
    const Xyz mix = mixedXyz(one, 1, other, 3);
    CHECK_THAT(mix.X, WithinAbs(0.65, 1e-12));
    CHECK_THAT(mix.Y, WithinAbs(0.55, 1e-12));
    CHECK_THAT(mix.Z, WithinAbs(0.175, 1e-12));
    CHECK(mixedXyz(other, 3, one, 1) == mix);
}
