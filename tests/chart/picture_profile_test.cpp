// Chart pictures with an embedded ICC profile.
#include "chart/picture.h"

#include "chart/png_with_chunk.h"
#include "colour/made_profiles.h"
#include "colour/profile.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::chart;

namespace {

const QString kProfiledSource = QStringLiteral("c.png");
const QString kKeySource = QStringLiteral("c.key.csv");

/// One row of cells, one of each colour.
QByteArray pngOf(const std::vector<colour::Srgb8>& pixels) {
    Chart chart;
    chart.grid = Grid(static_cast<int>(pixels.size()), 1);
    for (std::size_t i = 0; i < pixels.size(); ++i) {
        chart.grid.cells()[i] = static_cast<KeyIndex>(i);
        KeyRow row;
        row.pixel = pixels[i];
        chart.key.push_back(row);
    }
    recount(chart);
    return pictureBytes(chart);
}

colour::ProfileRgb samplesOf(const colour::Srgb8& pixel) {
    const auto wide = [](std::uint8_t value) { return static_cast<std::uint16_t>(257 * value); };
    return {wide(pixel.r), wide(pixel.g), wide(pixel.b)};
}

Key keyOf(const std::vector<colour::Srgb8>& pixels) {
    Key key;
    for (const colour::Srgb8& pixel : pixels) {
        KeyRow row;
        row.pixel = pixel;
        key.push_back(row);
    }
    return key;
}

const std::vector<colour::Srgb8> kPixels{{170, 52, 48}, {40, 110, 60}, {90, 90, 200}};

} // namespace

TEST_CASE("an embedded profile makes sRGB of the pixels, once") {
    const QByteArray profile = colour::samples::profileOf(colour::samples::displayP3());
    std::vector<colour::ProfileRgb> samples;
    for (const colour::Srgb8& pixel : kPixels) {
        samples.push_back(samplesOf(pixel));
    }
    const std::vector<colour::Srgb8> srgb = colour::srgbThrough(profile, samples, kProfiledSource);
    const Chart chart =
        chartFromPicture(chart::samples::withProfile(pngOf(kPixels), profile), kProfiledSource);
    REQUIRE(chart.key.size() == kPixels.size());
    for (std::size_t i = 0; i < kPixels.size(); ++i) {
        CHECK(colour::toHex(chart.key[i].pixel) == colour::toHex(srgb[i]));
        CHECK(chart.key[i].pixel != kPixels[i]);
    }
}

TEST_CASE("an embedded profile of sRGB changes nothing") {
    const QByteArray profile = colour::samples::profileOf(colour::samples::srgb());
    const QByteArray png = pngOf(kPixels);
    CHECK((chartFromPicture(chart::samples::withProfile(png, profile), kProfiledSource) ==
           chartFromPicture(png, kProfiledSource)));
}

TEST_CASE("a colour out of a profile may be one step off its row of the key, no more") {
    const QByteArray profile = colour::samples::profileOf(colour::samples::srgb());
    const QByteArray png = chart::samples::withProfile(pngOf({{100, 100, 100}}), profile);
    const auto refusalWith = [&](const colour::Srgb8& pixel) {
        return fixtures::refusal(kKeySource, [&] {
            (void)chartFromPicture(png, kProfiledSource, keyOf({pixel}), kKeySource);
        });
    };
    CHECK(refusalWith({101, 99, 101}) == "accepted");
    CHECK(refusalWith({100, 100, 102}) ==
          ": column srgb: expected a row for every colour of the picture, found none for #646464 "
          "(1 stitch, first in column 1, row 1)");
}

TEST_CASE("of two rows within a step the nearer takes the stitch") {
    const QByteArray profile = colour::samples::profileOf(colour::samples::srgb());
    const QByteArray png = chart::samples::withProfile(pngOf({{100, 100, 100}}), profile);
    const auto rowIn = [&](const std::vector<colour::Srgb8>& pixels) {
        return chartFromPicture(png, kProfiledSource, keyOf(pixels), kKeySource).grid.at({0, 0});
    };
    CHECK(rowIn({{101, 101, 100}, {100, 99, 100}, {99, 99, 99}}) == 1);
    CHECK(rowIn({{101, 100, 100}, {100, 100, 100}}) == 1);
    CHECK(rowIn({{99, 100, 100}, {101, 100, 100}}) == 0); // as near: the first
}

TEST_CASE("a profile that does not suit the pixels is refused, by the picture's name") {
    const auto refusalWith = [&](const QByteArray& profile,
                                 const std::vector<colour::Srgb8>& pixels) {
        const QByteArray png = chart::samples::withProfile(pngOf(pixels), profile);
        return fixtures::refusal(kProfiledSource,
                                 [&] { (void)chartFromPicture(png, kProfiledSource); });
    };
    const std::string expected =
        ": expected a colour profile for RGB or grey pictures, or none, found ";
    const QByteArray grey = colour::samples::greyProfile(1.8);
    CHECK(refusalWith(grey, kPixels) == expected + "one for grey in a picture in colour");
    CHECK(refusalWith(grey, {{7, 7, 7}, {90, 90, 90}}) == "accepted");
    QByteArray cmyk = colour::samples::profileOf(colour::samples::adobeRgb());
    cmyk.replace(16, 4, "CMYK");
    CHECK(refusalWith(cmyk, kPixels) == expected + "one for something else");
    CHECK(refusalWith(cmyk.left(300), kPixels) == expected + "a damaged one");
}

TEST_CASE("colours that a profile makes one are one row of a made key") {
    // Two greens that sRGB cannot show: both are clipped to the same.
    const std::vector<colour::Srgb8> pixels{{0, 255, 0}, {0, 254, 0}, {0, 0, 0}};
    const QByteArray profile = colour::samples::profileOf(colour::samples::adobeRgb());
    const Chart chart =
        chartFromPicture(chart::samples::withProfile(pngOf(pixels), profile), kProfiledSource);
    CHECK(chart.isConsistent());
    const auto srgb = colour::srgbThrough(
        profile, std::vector{samplesOf(pixels[0]), samplesOf(pixels[1])}, kProfiledSource);
    CHECK(chart.key.size() == (srgb[0] == srgb[1] ? 2 : 3));
}

TEST_CASE("a colour space by number overrides a profile") {
    const QByteArray png = pngOf(kPixels);
    const QByteArray both = chart::samples::withChunk(
        chart::samples::withProfile(png, colour::samples::profileOf(colour::samples::displayP3())),
        "cICP", QByteArray("\x01\x0d\x00\x01", 4));
    CHECK((chartFromPicture(both, kProfiledSource) == chartFromPicture(png, kProfiledSource)));
}
