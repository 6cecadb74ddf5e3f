#include "colour/conversion.h"

#include "random_lab.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <thread>
#include <vector>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

namespace {

/// What single precision inside littleCMS leaves in L*, a* and b*.
constexpr double kSingle = 1e-4;

Srgb8 hex(const QString& text) {
    const auto srgb = parseHex(text);
    REQUIRE(srgb.has_value());
    return *srgb;
}

} // namespace

TEST_CASE("white is L 100 with no colour and black is L 0") {
    const Lab white = labFromSrgb(Srgb8{255, 255, 255});
    CHECK(white.L <= 100);
    // The columns of the profile add up to D50. Inside, littleCMS works in single precision: f of 1
    // is held to 6e-8, times 500 and a few steps.
    CHECK_THAT(white.L, WithinAbs(100, kSingle));
    CHECK_THAT(white.a, WithinAbs(0, kSingle));
    CHECK_THAT(white.b, WithinAbs(0, kSingle));
    CHECK_THAT(labFromSrgb(Srgb8{0, 0, 0}).L, WithinAbs(0, kSingle));
    CHECK_THAT(chroma(labFromSrgb(Srgb8{0, 0, 0})), WithinAbs(0, kSingle));
}

TEST_CASE("greys of sRGB are neutral and grow lighter") {
    double previous = -1;
    for (int value = 0; value <= 255; ++value) {
        const auto v = static_cast<std::uint8_t>(value);
        const Lab lab = labFromSrgb(Srgb8{v, v, v});
        CAPTURE(value, lab.L, lab.a, lab.b);
        REQUIRE(lab.L > previous);
        REQUIRE(lab.L <= 100);
        REQUIRE(chroma(lab) < kSingle);
        previous = lab.L;
    }
}

TEST_CASE("sRGB decodes along the curve of IEC 61966-2-1") {
    const reference::File table("iec_61966_2_1.csv");
    int points = 0;
    for (const reference::Row& row : table.rows()) {
        if (row.text("kind") != QStringLiteral("curve")) {
            continue;
        }
        const double c = row.number("encoded");
        CAPTURE(c);
        // Y of a grey is the decoded value, here in single precision (6e-8, a few steps).
        CHECK_THAT(xyzFromLab(labFromSrgb(c, c, c)).Y, WithinAbs(row.number("value"), 1e-6));
        ++points;
    }
    CHECK(points == 11);
}

TEST_CASE("sRGB primaries adapt to D50 as in the ICC profile") {
    const reference::File table("icc_srgb_profile.csv");
    REQUIRE(table.rows().size() == 4);
    for (const reference::Row& row : table.rows()) {
        CAPTURE(row.text("srgb").toStdString());
        const Xyz xyz = xyzFromLab(labFromSrgb(hex(row.text("srgb"))));
        // The columns of 1998 add up to 0.96429 1 0.82510, D50 by its chromaticity; ours to the
        // 0.9642 1 0.8249 of ICC.1. No column can be further off than the whites are, but for
        // what adapting moves between X and Y.
        CHECK_THAT(xyz.X, WithinAbs(row.number("X"), 1e-4));
        CHECK_THAT(xyz.Y, WithinAbs(row.number("Y"), 1e-4));
        CHECK_THAT(xyz.Z, WithinAbs(row.number("Z"), 2.1e-4));
    }
}

TEST_CASE("Lab of sRGB agrees with culori") {
    // Both adapt by Bradford, but culori to the D50 of the chromaticity 0.3457 0.3585 (0.96430 1
    // 0.82510), littleCMS to the 0.9642 1 0.8249 of ICC.1. Relative to the white of each, the nine
    // entries of their matrices differ by these shares at most (X and Y in the blue column, Z in
    // the green), and a sum of positive terms by no more. f(t) = t^(1/3) makes a share e of t an
    // error of e/3 at most, so:
    constexpr double kX = 1.3e-4;
    constexpr double kY = 1.6e-4;
    constexpr double kZ = 1.1e-4;
    constexpr double kPrinted = 5e-6;
    constexpr double kL = 116 * kY / 3 + kPrinted;
    constexpr double kA = 500 * (kX + kY) / 3 + kPrinted;
    constexpr double kB = 200 * (kY + kZ) / 3 + kPrinted;
    const reference::File table("culori_pairs.csv");
    REQUIRE(table.rows().size() >= 10'000);
    for (const reference::Row& row : table.rows()) {
        for (const bool first : {true, false}) {
            const QString text = row.text(first ? "one" : "other");
            const Lab lab = labFromSrgb(hex(text));
            CAPTURE(text.toStdString(), lab.L, lab.a, lab.b);
            REQUIRE_THAT(lab.L, WithinAbs(row.number(first ? "L1" : "L2"), kL));
            REQUIRE_THAT(lab.a, WithinAbs(row.number(first ? "a1" : "a2"), kA));
            REQUIRE_THAT(lab.b, WithinAbs(row.number(first ? "b1" : "b2"), kB));
        }
    }
}

TEST_CASE("every sRGB colour of a grid comes back from Lab unchanged") {
    int colours = 0;
    for (int r = 0; r <= 255; r += 15) {
        for (int g = 0; g <= 255; g += 15) {
            for (int b = 0; b <= 255; b += 15) {
                const Srgb8 srgb{static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g),
                                 static_cast<std::uint8_t>(b)};
                const Lab lab = labFromSrgb(srgb);
                CAPTURE(r, g, b, lab.L, lab.a, lab.b);
                REQUIRE(srgbFromLab(lab) == srgb);
                REQUIRE(isInsideSrgb(lab));
                ++colours;
            }
        }
    }
    CHECK(colours == 18 * 18 * 18);
}

TEST_CASE("a colour that sRGB cannot show is clipped and known to be so") {
    const Lab strongTurquoise{60, -80, -20};
    CHECK_FALSE(isInsideSrgb(strongTurquoise));
    CHECK(srgbFromLab(strongTurquoise).r == 0);
    const Lab strongOrange{60, 80, 120};
    CHECK_FALSE(isInsideSrgb(strongOrange));
    CHECK(srgbFromLab(strongOrange).r == 255);
    CHECK(srgbFromLab(strongOrange).b == 0);
    CHECK(isInsideSrgb({50, 0, 0}));
}

TEST_CASE("many colours at once are the same as one by one") {
    std::vector<Srgb8> srgb;
    for (int i = 0; i < 256; ++i) {
        srgb.push_back({static_cast<std::uint8_t>(i), static_cast<std::uint8_t>(i * 7 % 256),
                        static_cast<std::uint8_t>(255 - i)});
    }
    std::vector<Lab> out(srgb.size());
    labFromSrgb(srgb, out);
    for (std::size_t i = 0; i < srgb.size(); ++i) {
        CAPTURE(i);
        CHECK(out[i] == labFromSrgb(srgb[i]));
    }
}

TEST_CASE("components between two 8-bit steps give a colour between") {
    const Lab lower = labFromSrgb(Srgb8{100, 100, 100});
    const Lab between = labFromSrgb(100.5 / 255, 100.5 / 255, 100.5 / 255);
    const Lab upper = labFromSrgb(Srgb8{101, 101, 101});
    CHECK(lower.L < between.L);
    CHECK(between.L < upper.L);
    // An 8-bit path inside would give one of the ends.
    CHECK_THAT(between.L, WithinAbs((lower.L + upper.L) / 2, 0.1 * (upper.L - lower.L)));
}

TEST_CASE("XYZ of Lab follows CIE 15") {
    CHECK(xyzFromLab({100, 0, 0}).Y == 1);
    CHECK_THAT(xyzFromLab({100, 0, 0}).X, WithinAbs(0.9642, 1e-12)); // D50, ICC.1
    CHECK_THAT(xyzFromLab({100, 0, 0}).Z, WithinAbs(0.8249, 1e-12));
    // L 50: Y = (66/116)³. L 4 lies on the straight part: Y = 4 · 27/24389.
    CHECK_THAT(xyzFromLab({50, 0, 0}).Y, WithinAbs(0.184186519, 5e-10));
    CHECK_THAT(xyzFromLab({4, 0, 0}).Y, WithinAbs(4 * 27.0 / 24389.0, 1e-12));
    // a 25 at L 50: X/Xn = (66/116 + 25/500)³ = 0.618965517³.
    CHECK_THAT(xyzFromLab({50, 25, 0}).X / 0.9642, WithinAbs(0.237137, 5e-7));
    // b 25 at L 50: Z/Zn = (66/116 - 25/200)³ = 0.443965517³.
    CHECK_THAT(xyzFromLab({50, 0, 25}).Z / 0.8249, WithinAbs(0.0875080, 5e-8));
}

TEST_CASE("Lab comes back from XYZ") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 10'000; ++i) {
        const Lab lab = random.anywhere();
        const Lab back = labFromXyz(xyzFromLab(lab));
        CAPTURE(i, lab.L, lab.a, lab.b);
        // 500 times a rounding of f, which is near 1.
        REQUIRE_THAT(back.L, WithinAbs(lab.L, 1e-10));
        REQUIRE_THAT(back.a, WithinAbs(lab.a, 1e-10));
        REQUIRE_THAT(back.b, WithinAbs(lab.b, 1e-10));
    }
}

TEST_CASE("conversions on another thread of execution give the same colours") {
    const Lab here = labFromSrgb(Srgb8{200, 30, 90});
    Lab there;
    std::thread([&there] { there = labFromSrgb(Srgb8{200, 30, 90}); }).join();
    CHECK(here == there);
}
