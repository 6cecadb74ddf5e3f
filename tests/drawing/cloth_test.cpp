#include <catch2/catch.hpp>

#include "drawing/samples.h"
#include "drawing/stitch.h"

#include <array>
#include <set>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

constexpr std::array<Cloth, 5> kCloths{
    Cloth{thread::Weave::Even, 2}, Cloth{thread::Weave::Even, 1}, Cloth{thread::Weave::Linen, 2},
    Cloth{thread::Weave::Linen, 1}, Cloth{thread::Weave::Block, 2}};

double meanLuminance(const QImage& image) {
    return colour::xyzFromLab(meanLab(image, image.rect())).Y;
}

QImage tiledTwice(const QImage& tile) {
    QImage all(2 * tile.width(), 2 * tile.height(), QImage::Format_RGB32);
    QPainter painter(&all);
    painter.fillRect(all.rect(), QBrush(tile));
    return all;
}

/// Change of lightness from one pixel column, and one line, to the next, summed along it.
double stepAt(const QImage& image, int i) {
    double sum = 0;
    for (int k = 0; k < image.width(); ++k) {
        sum += std::abs(qGray(image.pixel(i, k)) - qGray(image.pixel(i - 1, k)));
        sum += std::abs(qGray(image.pixel(k, i)) - qGray(image.pixel(k, i - 1)));
    }
    return sum;
}

} // namespace

TEST_CASE("every cloth has the ground's light in the mean") {
    for (const Cloth& cloth : kCloths) {
        for (const int side : {4, 7, 8, 13, 24, 41, 64, 96}) {
            for (const QRgb ground : {kLinen, qRgb(0x23, 0x2c, 0x40), qRgb(0x6f, 0x7f, 0x58)}) {
                const QImage picture = clothPicture(side, ground, cloth);
                const double wanted = colour::xyzFromLab(labOf(ground)).Y;
                CAPTURE(static_cast<int>(cloth.weave), cloth.over, side, ground);
                CHECK_THAT(meanLuminance(picture) / wanted, Catch::WithinAbs(1, 0.01));
            }
            // White has no room for anything brighter: a little is lost, as documented.
            const QImage white = clothPicture(side, qRgb(255, 255, 255), cloth);
            CHECK(meanLuminance(white) / colour::xyzFromLab(labOf(qRgb(255, 255, 255))).Y > 0.965);
        }
    }
}

TEST_CASE("every cloth tiles without a seam") {
    for (const Cloth& cloth : kCloths) {
        for (const int side : {16, 32, 96}) {
            const QImage tile = clothPicture(side, kLinen, cloth);
            REQUIRE(tile.width() == side * repeatOf(cloth));
            const QImage all = tiledTwice(tile);
            // At the seam no more changes than at the most lively of the sides between cells, or,
            // in a cloth of one cell, between threads.
            double most = 0;
            for (int i = 1; i < tile.width(); ++i) {
                most = std::max(most, stepAt(all, i));
            }
            CAPTURE(static_cast<int>(cloth.weave), cloth.over, side);
            CHECK(stepAt(all, tile.width()) <= 1.02 * most);
            CHECK(stepAt(all, tile.width()) > 0);
        }
    }
}

TEST_CASE("threads of linen differ, those of evenweave do not") {
    const int side = 24;
    const auto kinds = [&](const Cloth& cloth) {
        const QImage picture = clothPicture(side, kLinen, cloth);
        const int parts = picture.width() / side;
        std::vector<QImage> seen;
        for (int i = 0; i < parts * parts; ++i) {
            const QImage cell = picture.copy(i % parts * side, i / parts * side, side, side);
            if (std::ranges::find(seen, cell) == seen.end()) {
                seen.push_back(cell);
            }
        }
        return seen.size();
    };
    CHECK(kinds({thread::Weave::Even, 2}) == 1);
    CHECK(kinds({thread::Weave::Block, 2}) == 1);
    CHECK(kinds({thread::Weave::Even, 1}) == 2); // over and under by turns
    CHECK(kinds({thread::Weave::Linen, 2}) == 64);
}

TEST_CASE("no cell of linen stands out where the cloth begins anew") {
    for (const int over : {1, 2}) {
        const QImage picture = clothPicture(20, kLinen, {thread::Weave::Linen, over});
        for (int row = 0; row < 8; ++row) {
            for (int column = 0; column < 8; ++column) {
                const colour::Lab cell = meanLab(picture, QRect(column * 20, row * 20, 20, 20));
                CAPTURE(over, column, row);
                CHECK(std::abs(cell.L - labOf(kLinen).L) < 1.5);
            }
        }
    }
}

TEST_CASE("block weave has dark holes where the needle goes, at the corners of cells") {
    const int side = 40;
    const QImage all =
        tiledTwice(clothPicture(side, qRgb(0xe8, 0xe0, 0xd0), {thread::Weave::Block, 2}));
    const auto lightness = [&](int x, int y) { return meanLab(all, QRect(x - 2, y - 2, 4, 4)).L; };
    const double hole = lightness(side, side);
    for (int y = side / 4; y < 7 * side / 4; y += 4) {
        for (int x = side / 4; x < 7 * side / 4; x += 4) {
            if (std::hypot(x - side, y - side) > 8) {
                CAPTURE(x, y);
                CHECK(lightness(x, y) > hole + 10);
            }
        }
    }
}

TEST_CASE("charts lie on the cloth that their layers say, at every place the same") {
    chart::Chart chart = sampleChart(20, 14);
    for (auto& cell : chart.grid.cells()) {
        cell = chart::kBare;
    }
    ChartPainter painter = painterOf(chart);
    for (const Cloth& cloth : kCloths) {
        Layers layers = onlyStitches();
        layers.cloth = cloth;
        const int side = 12;
        const QImage image = painted(painter, viewOf(side, {0, 0}), layers);
        const QImage tile = clothPicture(side, kLinen, cloth);
        CAPTURE(static_cast<int>(cloth.weave), cloth.over);
        for (int y = 0; y < 155; y += 7) {
            for (int x = 0; x < 235; x += 5) {
                REQUIRE(image.pixel(x, y) == tile.pixel(x % tile.width(), y % tile.height()));
            }
        }
        // Also in the margin, left of the chart and above it.
        const QImage moved = painted(painter, viewOf(side, {36, 24}), layers);
        CHECK(moved.copy(36, 24, 150, 100) == image.copy(0, 0, 150, 100));
        const int far = tile.width() * 100;
        CHECK(moved.pixel(5, 30) == tile.pixel((far + 5 - 36) % tile.width(), 6));
    }
}

TEST_CASE("panning over linen shifts the picture exactly") {
    const chart::Chart chart = sampleChart(90, 80);
    ChartPainter painter = painterOf(chart);
    Layers layers;
    layers.cloth = {thread::Weave::Linen, 2};
    for (const double cell : {3.4, 7.1, 12.9}) {
        const View view = viewOf(cell, {-40.3, -30.6});
        View panned = view;
        panned.origin += QPointF(17, -9);
        const QImage before = painted(painter, view, layers);
        const QImage after = painted(painter, panned, layers);
        CAPTURE(cell);
        CHECK(before.copy(0, 9, 223, 151) == after.copy(17, 0, 223, 151));
    }
}

TEST_CASE("another cloth is seen at once, and gone again") {
    const chart::Chart chart = sampleChart(30, 20);
    ChartPainter painter = painterOf(chart);
    Layers linen = onlyStitches();
    linen.cloth = {thread::Weave::Linen, 1};
    const QImage plain = painted(painter, viewOf(12, {5, 5}), onlyStitches());
    const QImage other = painted(painter, viewOf(12, {5, 5}), linen);
    CHECK(other != plain);
    CHECK(painted(painter, viewOf(12, {5, 5}), onlyStitches()) == plain);
    CHECK(painted(painter, viewOf(1.5, {5, 5}), linen) ==
          painted(painter, viewOf(1.5, {5, 5}), onlyStitches())); // too far away to see threads
}
