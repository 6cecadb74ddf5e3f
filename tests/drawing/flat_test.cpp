#include <catch2/catch.hpp>

#include "colour/mixing.h"
#include "drawing/samples.h"

#include <QSet>

using namespace otherskein;
using namespace otherskein::drawing;

TEST_CASE("a flat picture shows each stitch in its row's colour and bare cells as ground") {
    const chart::Chart chart = sampleChart(37, 23);
    const Paint paint = paintOf(chart.key, kLinen);
    const QImage image = flatImage(chart.grid, paint);
    REQUIRE(image.size() == QSize(37, 23));
    for (int y = 0; y < 23; ++y) {
        for (int x = 0; x < 37; ++x) {
            const chart::KeyIndex row = chart.grid.at({x, y});
            CHECK(image.pixel(x, y) == (row == chart::kBare ? kLinen : paint.rows[row]));
        }
    }
}

TEST_CASE("painting an area changes that area only") {
    const chart::Chart chart = sampleChart(37, 23);
    const Paint paint = paintOf(chart.key, kLinen);
    Paint other = paint;
    other.rows.assign(4, qRgb(1, 2, 3));
    other.ground = qRgb(1, 2, 3);
    QImage image = flatImage(chart.grid, paint);
    const QImage before = image.copy();
    paintFlat(image, chart.grid, other, {5, 4, 7, 9});
    for (int y = 0; y < 23; ++y) {
        for (int x = 0; x < 37; ++x) {
            const bool isInside = QRect(5, 4, 7, 9).contains(x, y);
            CHECK(image.pixel(x, y) == (isInside ? qRgb(1, 2, 3) : before.pixel(x, y)));
        }
    }
}

TEST_CASE("halving averages light, not sRGB numbers") {
    QImage image(2, 2, QImage::Format_RGB32);
    image.fill(Qt::black);
    image.setPixel(0, 0, qRgb(255, 255, 255));
    image.setPixel(1, 1, qRgb(255, 255, 255));
    // Half the light of white: 1.055 · 0.5^(1/2.4) - 0.055 = 0.7354 (IEC 61966-2-1) = 188 of 255.
    CHECK(halved(image).pixel(0, 0) == qRgb(188, 188, 188));
}

TEST_CASE("halving keeps every even colour and rounds odd sizes up") {
    for (int value = 0; value < 256; ++value) {
        QImage image(5, 3, QImage::Format_RGB32);
        image.fill(qRgb(value, 255 - value, value));
        const QImage half = halved(image);
        REQUIRE(half.size() == QSize(3, 2));
        for (int i = 0; i < 6; ++i) {
            CHECK(half.pixel(i % 3, i / 3) == qRgb(value, 255 - value, value));
        }
    }
}

TEST_CASE("a small picture holds the whole chart in the middle of its ground") {
    chart::Chart chart = sampleChart(40, 40);
    for (auto& cell : chart.grid.cells()) {
        cell = 1;
    }
    const QImage image = smallPicture(chart, paintOf(chart.key, kLinen), QSize(200, 120));
    REQUIRE(image.size() == QSize(200, 120));
    CHECK(image.pixel(2, 60) == kLinen);
    CHECK(image.pixel(197, 60) == kLinen);
    // Square: as wide as it is high, in the middle.
    int wide = 0;
    int high = 0;
    for (int x = 0; x < 200; ++x) {
        wide += image.pixel(x, 60) != kLinen ? 1 : 0;
    }
    for (int y = 0; y < 120; ++y) {
        high += image.pixel(100, y) != kLinen ? 1 : 0;
    }
    CHECK(std::abs(wide - high) <= 1);
    CHECK(wide > 90);
    CHECK(colour::deltaE00(
              meanLab(image, QRect(70, 30, 60, 60)),
              colour::apparentColour(labOf(qRgb(0xab, 0x34, 0x30)), labOf(kLinen), 0.9)) < 1);
}

TEST_CASE("a small picture of a small chart shows stitches, and its lines") {
    chart::Chart chart = sampleChart(8, 8);
    for (auto& cell : chart.grid.cells()) {
        cell = 2;
    }
    const Paint paint = paintOf(chart.key, kLinen);
    const QImage plain = smallPicture(chart, paint, QSize(160, 160));
    chart.lines.push_back({0, 8, 16, 8, 3});
    const QImage lined = smallPicture(chart, paint, QSize(160, 160));
    CHECK(qGray(lined.pixel(80, 80)) < 60);
    CHECK(plain.pixel(80, 20) == lined.pixel(80, 20));
    QSet<QRgb> colours;
    for (int x = 20; x < 140; ++x) {
        colours.insert(plain.pixel(x, 75));
    }
    CHECK(colours.size() > 8);
}
