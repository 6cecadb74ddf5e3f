#include "colourway/main_colours.h"

#include "colour/conversion.h"
#include "colour/difference.h"

#include <catch2/catch.hpp>

#include <QPainter>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

QImage flag() {
    QImage image(100, 100, QImage::Format_ARGB32);
    image.fill(qRgb(0x20, 0x50, 0x90));
    for (int y = 0; y < 100; ++y) {
        for (int x = 0; x < 100; ++x) {
            if (y >= 60) {
                image.setPixel(x, y, qRgb(0xe0, 0xd0, 0xb0));
            }
            if (x >= 45 && x < 55 && y >= 45 && y < 55) {
                image.setPixel(x, y, qRgb(0xc0, 0x20, 0x20));
            }
        }
    }
    return image;
}

} // namespace

TEST_CASE("the main colours of a picture are found with their shares, small strong ones too") {
    const auto found = mainColours(flag(), 3);
    REQUIRE(found.size() == 3);
    const colour::Srgb8 wanted[] = {{0x20, 0x50, 0x90}, {0xe0, 0xd0, 0xb0}, {0xc0, 0x20, 0x20}};
    const double shares[] = {0.595, 0.395, 0.01};
    for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(i);
        CHECK(colour::deltaE00(found[i].lab, colour::labFromSrgb(wanted[i])) < 0.5);
        CHECK_THAT(found[i].share, WithinAbs(shares[i], 0.006));
    }
}

TEST_CASE("asking for more colours than there are gives those that there are") {
    CHECK(mainColours(flag(), 12).size() == 3);
}

TEST_CASE("clear pixels are no colour of a picture") {
    QImage image(10, 10, QImage::Format_ARGB32);
    image.fill(Qt::transparent);
    CHECK(mainColours(image, 5).empty());
    image.setPixel(3, 3, qRgb(9, 200, 9));
    const auto found = mainColours(image, 5);
    REQUIRE(found.size() == 1);
    CHECK_THAT(found[0].share, WithinAbs(1, 1e-12));
}
