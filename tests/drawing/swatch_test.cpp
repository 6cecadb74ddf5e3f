#include <catch2/catch.hpp>

#include "drawing/detail/relief_cache.h"
#include "drawing/samples.h"
#include "drawing/stitch.h"
#include "drawing/swatch.h"

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

Swatch sampleSwatch(const QSize& size, double cell) {
    return {size, qRgb(0x44, 0x5d, 0x76), kLinen, 0.86, {thread::Weave::Linen, 2}, cell};
}

} // namespace

TEST_CASE("the stitches of a swatch leave bare cloth on every side") {
    for (const QSize& size : {QSize(195, 100), QSize(390, 200), QSize(60, 40), QSize(400, 200)}) {
        for (const double cell : {3.0, 6.4, 10.0, 13.5, 20.0}) {
            const QRect part = stitchedPart(sampleSwatch(size, cell));
            CAPTURE(size.width(), size.height(), cell);
            CHECK(std::abs(part.left() - 0.08 * size.width()) <= 0.5);
            CHECK(std::abs(part.top() - 0.08 * size.height()) <= 0.5);
            // Whole cells: as near as half of one, and its rounding.
            CHECK(std::abs(part.width() - 0.65 * size.width()) <= cell / 2 + 1);
            CHECK(std::abs(part.height() - 0.70 * size.height()) <= cell / 2 + 1);
            CHECK(part.right() < size.width() - 1);
            CHECK(part.bottom() < size.height() - 1);
        }
    }
}

TEST_CASE("a swatch is opaque, of its size, and always the same") {
    const Swatch one = sampleSwatch(QSize(195, 100), 10.4);
    const QImage image = swatch(one);
    CHECK(image.size() == QSize(195, 100));
    CHECK(image.format() == QImage::Format_RGB32);
    CHECK(image == swatch(one));
    CHECK(swatch(sampleSwatch(QSize(0, 40), 10)).isNull());
}

TEST_CASE("a cell larger than the swatch is one stitch, cut off") {
    const QImage image = swatch(sampleSwatch(QSize(30, 20), 96));
    CHECK(image.size() == QSize(30, 20));
    CHECK(image.pixel(0, 0) != image.pixel(29, 19));
}

TEST_CASE("far from the stitches a swatch is the bare cloth") {
    Swatch one = sampleSwatch(QSize(400, 200), 10);
    for (const thread::Weave weave :
         {thread::Weave::Even, thread::Weave::Linen, thread::Weave::Block}) {
        one.cloth = {weave, 2};
        const QImage image = swatch(one);
        const QImage tile = clothPicture(10, kLinen, one.cloth);
        const QRect part = stitchedPart(one);
        for (int y = 0; y < 200; ++y) {
            for (int x = part.right() + 20; x < 400; ++x) {
                const int column = (x - part.left()) % tile.width();
                const int row = (y - part.top() + 100 * tile.height()) % tile.height();
                REQUIRE(std::abs(qRed(image.pixel(x, y)) - qRed(tile.pixel(column, row))) <= 1);
                REQUIRE(std::abs(qBlue(image.pixel(x, y)) - qBlue(tile.pixel(column, row))) <= 1);
            }
        }
    }
}

TEST_CASE("stitches cast a soft shadow on the cloth to their lower right") {
    Swatch one = sampleSwatch(QSize(400, 200), 20);
    one.cloth = {};
    const QImage image = swatch(one);
    const QRect part = stitchedPart(one);
    // Strips of cloth as wide as a fabric thread, beside the stitches and one cell farther out.
    const auto strip = [&](int x, int y, int width, int height) {
        return meanLab(image, QRect(x, y, width, height)).L;
    };
    const int right = part.right() + 1;
    const int below = part.bottom() + 1;
    CHECK(strip(right, part.top() + 20, 4, 100) < strip(right + 40, part.top() + 20, 4, 100) - 1.5);
    CHECK(strip(part.left() + 20, below, 200, 4) < strip(right + 40, below, 60, 4) - 1.5);
    const auto darker = [&](int beside, int away) {
        return strip(away, part.top() + 20, 4, 100) - strip(beside, part.top() + 20, 4, 100);
    };
    CHECK(darker(right, right + 40) > darker(part.left() - 4, part.left() - 24) + 1);
}

TEST_CASE("every stitch has its top leg from the lower left to the upper right") {
    // Along the top leg the light changes less than along the lower one, which dives under.
    const auto lightChange = [](const QImage& image, const QRect& cell, bool rising) {
        double sum = 0;
        const int side = cell.width();
        const int from = side / 4;
        for (int i = from; i + 1 < side - from; ++i) {
            for (int across = -1; across <= 1; ++across) {
                const auto gray = [&](int step) {
                    const int y = rising ? cell.bottom() - step : cell.top() + step;
                    return qGray(image.pixel(cell.left() + step + across, y));
                };
                sum += std::abs(gray(i + 1) - gray(i));
            }
        }
        return sum;
    };
    const int side = 24;
    for (const double coverage : {0.64, 0.86}) {
        Swatch one = sampleSwatch(QSize(400, 300), side);
        one.thread = qRgb(0xe7, 0xc1, 0x5a);
        one.coverage = coverage;
        const QImage image = swatch(one);
        const QRect part = stitchedPart(one);
        chart::Chart chart = sampleChart(9, 6);
        for (auto& cell : chart.grid.cells()) {
            cell = 2;
        }
        ChartPainter painter = painterOf(chart);
        Layers layers = onlyStitches();
        layers.coverage = coverage;
        const QImage drawn = painted(painter, viewOf(side, {0, 0}), layers);
        for (int row = 0; row < 6; ++row) {
            for (int column = 0; column < 9; ++column) {
                const QRect here(column * side, row * side, side, side);
                CAPTURE(coverage, column, row);
                CHECK(lightChange(image, here.translated(part.topLeft()), true) <
                      lightChange(image, here.translated(part.topLeft()), false));
                CHECK(lightChange(drawn, here, true) < lightChange(drawn, here, false));
            }
        }
        for (int variant = 0; variant < 4; ++variant) {
            QImage cross(side, side, QImage::Format_RGB32);
            cross.fill(kLinen);
            QPainter(&cross).drawImage(0, 0, crossPicture(side, one.thread, coverage, variant));
            CHECK(lightChange(cross, cross.rect(), true) < lightChange(cross, cross.rect(), false));
        }
    }
}

TEST_CASE("what is kept for swatches stays bounded") {
    for (int i = 0; i < 600; ++i) {
        Swatch one = sampleSwatch(QSize(300, 200), 20 + 0.13 * i);
        one.coverage = 0.5 + 0.0008 * i;
        CHECK(!swatch(one).isNull());
    }
    CHECK(detail::keptReliefBytes() <= detail::kMostReliefBytes);
    CHECK(detail::keptReliefBytes() > 0);
}
