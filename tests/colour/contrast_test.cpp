#include "colour/contrast.h"

#include "colour/conversion.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

TEST_CASE("contrast ratios are those that WCAG texts print") {
    const reference::File table("wcag_contrast.csv");
    REQUIRE(table.rows().size() == 8);
    for (const reference::Row& row : table.rows()) {
        const auto one = parseHex(row.text("one"));
        const auto other = parseHex(row.text("other"));
        REQUIRE((one && other));
        CAPTURE(row.text("one").toStdString(), row.text("other").toStdString());
        const double unit = row.number("unit");
        const double least =
            row.number("printed") - (row.text("digits") == QStringLiteral("cut") ? 0 : unit / 2);
        constexpr double kRounding = 1e-9;
        const double ratio = contrastRatio(*one, *other);
        CHECK(ratio >= least - kRounding);
        CHECK(ratio < least + unit);
        CHECK(contrastRatio(*other, *one) == ratio);
    }
}

TEST_CASE("the contrast of a colour with itself is 1") {
    CHECK(contrastRatio(Srgb8{12, 200, 99}, Srgb8{12, 200, 99}) == 1);
    CHECK(contrastRatio(Lab{40, 20, -30}, Lab{40, 20, -30}) == 1);
}

TEST_CASE("relative luminance weighs the primaries as IEC 61966-2-1 does") {
    const reference::File table("iec_61966_2_1.csv");
    const auto weight = [&table](const QString& kind) {
        for (const reference::Row& row : table.rows()) {
            if (row.text("kind") == kind) {
                return row.number("value");
            }
        }
        return -1.0;
    };
    CHECK_THAT(relativeLuminance({255, 0, 0}),
               WithinAbs(weight(QStringLiteral("weight_red")), 1e-12));
    CHECK_THAT(relativeLuminance({0, 255, 0}),
               WithinAbs(weight(QStringLiteral("weight_green")), 1e-12));
    CHECK_THAT(relativeLuminance({0, 0, 255}),
               WithinAbs(weight(QStringLiteral("weight_blue")), 1e-12));
    CHECK_THAT(relativeLuminance({255, 255, 255}), WithinAbs(1, 1e-12));
    CHECK(relativeLuminance({0, 0, 0}) == 0);
    // Value 128 of the curve, nine decimals.
    CHECK_THAT(relativeLuminance({128, 128, 128}), WithinAbs(0.215860500, 5e-10));
}

TEST_CASE("the older break point of WCAG changes no 8-bit colour") {
    for (int value = 0; value <= 255; ++value) {
        CAPTURE(value);
        const double c = value / 255.0;
        const double older = c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
        const auto v = static_cast<std::uint8_t>(value);
        CHECK_THAT(relativeLuminance({v, v, v}), WithinAbs(older, 1e-12));
    }
}

TEST_CASE("the contrast of measured greys agrees with their sRGB form") {
    // Y of both forms agrees within 1e-6 (see the curve in conversion_test.cpp); over the flare of
    // 0.05 that is 2e-5 of the ratio.
    for (int value = 0; value <= 255; value += 5) {
        CAPTURE(value);
        const auto v = static_cast<std::uint8_t>(value);
        const Srgb8 grey{v, v, v};
        const double shown = contrastRatio(grey, Srgb8{255, 255, 255});
        CHECK_THAT(contrastRatio(labFromSrgb(grey), Lab{100, 0, 0}),
                   WithinAbs(shown, 2e-5 * shown));
    }
}

TEST_CASE("the contrast of measured colours comes from their luminance alone") {
    // L 50 has Y 0.184186518 whatever its hue: 1.05 / 0.234186518 = 4.483606.
    CHECK_THAT(contrastRatio(Lab{50, 0, 0}, Lab{100, 0, 0}), WithinAbs(4.483606, 5e-7));
    CHECK_THAT(contrastRatio(Lab{50, 70, -90}, Lab{100, 0, 0}), WithinAbs(4.483606, 5e-7));
}
