#include <catch2/catch.hpp>

#include "drawing/samples.h"
#include "drawing/stitch.h"

#include <array>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {
constexpr std::array<QRgb, 6> kThreads{qRgb(0x44, 0x5d, 0x76), qRgb(0xab, 0x34, 0x30),
                                       qRgb(0xe7, 0xc1, 0x5a), qRgb(0x57, 0x81, 0x5c),
                                       qRgb(0x90, 0x90, 0x90), qRgb(0x79, 0x8d, 0xa4)};
}

TEST_CASE("a cross covers the share of its cell that it should") {
    for (const int side : {6, 7, 8, 9, 12, 17, 24, 33, 48, 64, 96}) {
        for (const double coverage : {0.3, 0.45, 0.6, 0.641, 0.75, 0.858, 0.9, 0.961, 1.0}) {
            for (int variant = 0; variant < 4; ++variant) {
                const QImage cross = crossPicture(side, kThreads[0], coverage, variant);
                double covered = 0;
                for (int i = 0; i < side * side; ++i) {
                    covered += qAlpha(cross.pixel(i % side, i / side)) / 255.0;
                }
                CAPTURE(side, coverage, variant);
                CHECK_THAT(covered / (side * side), Catch::WithinAbs(coverage, 0.02));
            }
        }
    }
}

TEST_CASE("the light on a cross leaves the thread its colour in the mean") {
    for (const int side : {8, 16, 40}) {
        for (const QRgb thread : kThreads) {
            for (int variant = 0; variant < 4; ++variant) {
                const QImage cross = crossPicture(side, thread, 0.9, variant);
                CAPTURE(side, thread, variant);
                CHECK(colour::deltaE00(meanLab(cross, cross.rect()), labOf(thread)) < 0.8);
            }
        }
    }
}

TEST_CASE("white and black thread keep some relief at the price of a small shift") {
    for (const QRgb thread : {qRgb(255, 255, 255), qRgb(0, 0, 0)}) {
        const QImage cross = crossPicture(32, thread, 0.9, 0);
        CHECK(colour::deltaE00(meanLab(cross, cross.rect()), labOf(thread)) < 3);
        int least = 255;
        int most = 0;
        for (int i = 0; i < 32 * 32; ++i) {
            if (qAlpha(cross.pixel(i % 32, i / 32)) == 255) {
                least = std::min(least, qGray(cross.pixel(i % 32, i / 32)));
                most = std::max(most, qGray(cross.pixel(i % 32, i / 32)));
            }
        }
        CHECK(most - least > 20);
    }
}

TEST_CASE("the top leg runs from the lower left to the upper right, its shadow beside it") {
    const QImage cross = crossPicture(64, kThreads[2], 0.6, 0);
    const auto lightness = [&](int x, int y) {
        double sum = 0;
        for (int dy = -3; dy <= 3; ++dy) {
            for (int dx = -3; dx <= 3; ++dx) {
                sum += qGray(cross.pixel(x + dx, y + dy));
            }
        }
        return sum / 49;
    };
    // Both legs at the same distance from the middle: the lower one is dimmed by the upper one.
    const double top = (lightness(44, 20) + lightness(20, 44)) / 2;
    const double bottom = (lightness(40, 40) + lightness(24, 24)) / 2;
    CHECK(top > bottom + 4);
    CHECK(qAlpha(cross.pixel(32, 2)) == 0);
    CHECK(qAlpha(cross.pixel(2, 32)) == 0);
}

TEST_CASE("variants differ, but each is always the same") {
    for (int one = 0; one < 4; ++one) {
        CHECK(crossPicture(24, kThreads[1], 0.9, one) == crossPicture(24, kThreads[1], 0.9, one));
        CHECK(crossPicture(24, kThreads[1], 0.9, one) ==
              crossPicture(24, kThreads[1], 0.9, one + 4));
        for (int other = 0; other < one; ++other) {
            CHECK(crossPicture(24, kThreads[1], 0.9, one) !=
                  crossPicture(24, kThreads[1], 0.9, other));
        }
    }
}

TEST_CASE("cloth has the ground's colour in the mean") {
    for (const int side : {7, 8, 13, 20, 41, 96}) {
        for (const QRgb ground : {kLinen, qRgb(0x23, 0x2c, 0x40), qRgb(0xf4, 0xf3, 0xee),
                                  qRgb(0x6f, 0x7f, 0x58), qRgb(255, 255, 255)}) {
            const QImage cloth = clothPicture(side, ground);
            CAPTURE(side, ground);
            CHECK(colour::deltaE00(meanLab(cloth, cloth.rect()), labOf(ground)) < 1);
        }
    }
}

TEST_CASE("cloth tiles without a seam") {
    const int side = 32;
    const QImage cloth = clothPicture(side, kLinen);
    QImage tiled(2 * side, 2 * side, QImage::Format_RGB32);
    for (int y = 0; y < 2 * side; ++y) {
        for (int x = 0; x < 2 * side; ++x) {
            tiled.setPixel(x, y, cloth.pixel(x % side, y % side));
        }
    }
    // Two threads a cell: the step over the cell's edge is one like that over its middle, where
    // threads meet as well.
    const auto step = [&](int x) {
        double sum = 0;
        for (int i = 0; i < 2 * side; ++i) {
            sum += std::abs(qGray(tiled.pixel(x, i)) - qGray(tiled.pixel(x - 1, i)));
            sum += std::abs(qGray(tiled.pixel(i, x)) - qGray(tiled.pixel(i, x - 1)));
        }
        return sum;
    };
    CHECK_THAT(step(side), Catch::WithinAbs(step(side / 2), 0.02 * step(side / 2) + 1));
    CHECK(step(side) > 0);
}
