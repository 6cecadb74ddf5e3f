// How long a frame takes, at every zoom. Started by scripts/bench only; the test run never times
// anything.
#include <catch2/catch.hpp>

#include "drawing/chart_painter.h"
#include "drawing/flat.h"
#include "drawing/stitch.h"
#include "drawing/swatch.h"

#include <QGuiApplication>
#include <QPainter>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <random>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

constexpr int kKeyRows = 40;
constexpr QRgb kGround = qRgb(0xcd, 0xbf, 0xa6);

enum class Pattern { Noise, Areas };

chart::Chart sampleChart(int side, Pattern pattern) {
    std::mt19937 random(7);
    chart::Chart chart;
    chart.grid = chart::Grid(side, side);
    for (int i = 0; i < kKeyRows; ++i) {
        chart::KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(random() % 256),
                     static_cast<std::uint8_t>(random() % 256),
                     static_cast<std::uint8_t>(random() % 256)};
        chart.key.push_back(row);
    }
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            const unsigned row = pattern == Pattern::Noise
                                     ? static_cast<unsigned>(random() % (kKeyRows + 1))
                                     : static_cast<unsigned>(20 + 10 * std::sin(x * 0.031) +
                                                             10 * std::cos(y * 0.027));
            chart.grid.set({x, y},
                           row >= kKeyRows ? chart::kBare : static_cast<chart::KeyIndex>(row));
        }
    }
    for (int i = 0; i < 4 * side; ++i) {
        const int x = static_cast<int>(random() % static_cast<unsigned>(2 * side - 8));
        const int y = static_cast<int>(random() % static_cast<unsigned>(2 * side - 8));
        chart.lines.push_back({x, y, x + static_cast<int>(random() % 8),
                               y + static_cast<int>(random() % 8),
                               static_cast<chart::KeyIndex>(random() % kKeyRows)});
    }
    return chart;
}

template <typename Work>
double onceMs(Work work) {
    using Clock = std::chrono::steady_clock;
    const auto start = Clock::now();
    work();
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

template <typename Work>
double bestMs(int rounds, Work work) {
    double best = 1e300;
    for (int i = 0; i < rounds; ++i) {
        best = std::min(best, onceMs(work));
    }
    return best;
}

void makeApplication() {
    static int argc = 1;
    static std::array<char, 6> name{"bench"};
    static char* argv[] = {name.data(), nullptr};
    if (QCoreApplication::instance() == nullptr) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        new QGuiApplication(argc, argv); // lives as long as the program
    }
}

} // namespace

TEST_CASE("flat pictures grow linearly with the stitches") {
    for (const int side : {500, 1000, 2000}) {
        const chart::Chart chart = sampleChart(side, Pattern::Noise);
        const Paint paint = paintOf(chart.key, kGround);
        QImage image = flatImage(chart.grid, paint);
        const double flat = bestMs(5, [&] { image = flatImage(chart.grid, paint); });
        const double half = bestMs(5, [&] { CHECK(halved(image).width() == side / 2); });
        const double small =
            bestMs(3, [&] { CHECK(!smallPicture(chart, paint, QSize(160, 120)).isNull()); });
        std::printf(
            "%4.2f M stitches: flatImage %6.2f ms, halved %6.2f ms, smallPicture %6.2f ms\n",
            side * side / 1e6, flat, half, small);
    }
}

TEST_CASE("a frame of a million stitches follows the hand at every zoom") {
    makeApplication();
    struct Named {
        const char* name;
        Layers layers;
        bool byRow = false; ///< rows worked with one to four strands
    };
    const Cloth linen{thread::Weave::Linen, 2};
    const Cloth block{thread::Weave::Block, 2};
    const std::vector<Named> all{
        {"stitches", {true, false, false, true, 0.9}},
        {"stitches+grid", {true, false, true, true, 0.9}},
        {"linen", {true, false, false, true, 0.9, linen}},
        {"by row", {true, false, false, true, 0.9}, true},
        {"linen, by row", {true, false, false, true, 0.9, linen}, true},
        {"block, by row", {true, false, false, true, 0.9, block}, true},
        {"flat+grid", {false, false, true, true, 0.9}},
        {"symbols+grid", {true, true, true, true, 0.9}},
    };
    for (const Pattern pattern : {Pattern::Noise, Pattern::Areas}) {
        const chart::Chart chart = sampleChart(1000, pattern);
        ChartPainter painter;
        painter.setMarks(marksOf(chart.key));
        const Paint plain = paintOf(chart.key, kGround);
        painter.setChart(chart, plain);
        QImage screen(1280, 800, QImage::Format_RGB32);
        std::printf(
            "%s, 1280 x 800, ms: first frame at a zoom / next frame moved / after setPaint\n",
            pattern == Pattern::Noise ? "noise" : "areas");
        double worst = 0;
        for (const Named& named : all) {
            std::printf("  %-14s", named.name);
            Paint paint = plain;
            if (named.byRow) {
                constexpr std::array<float, 4> kCover{0.641F, 0.871F, 0.961F, 1.0F};
                for (std::size_t i = 0; i < paint.rows.size(); ++i) {
                    paint.cover.push_back(kCover[i % kCover.size()]);
                }
            }
            Paint other = paint;
            other.rows[3] = qRgb(200, 30, 40);
            painter.setPaint(paint);
            for (const double cell :
                 {0.1, 0.3, 0.8, 1.3, 2.0, 4.0, 6.9, 7.1, 10.0, 16.0, 32.0, 64.3, 96.0}) {
                View view;
                view.size = QSizeF(1280, 800);
                view.cell = cell;
                view.origin = QPointF(640 - 500 * cell, 400 - 500 * cell);
                const auto frame = [&] {
                    QPainter target(&screen);
                    painter.paint(target, view, named.layers, QRectF(0, 0, 1280, 800),
                                  QColor(220, 220, 220));
                };
                const double first = onceMs(frame);
                view.origin += QPointF(13, 7);
                const double next = bestMs(4, frame);
                painter.setPaint(other);
                const double painted = onceMs(frame);
                painter.setPaint(paint);
                worst = std::max({worst, first, next, painted});
                std::printf(" %g:%.1f/%.1f/%.1f", cell, first, next, painted);
                frame();
            }
            std::printf("\n");
        }
        std::printf("  worst %.1f ms\n", worst);
    }
}

TEST_CASE("setPaint and the frame after it grow linearly with the stitches") {
    makeApplication();
    for (const int side : {500, 1000, 2000}) {
        const chart::Chart chart = sampleChart(side, Pattern::Noise);
        const Paint paint = paintOf(chart.key, kGround);
        Paint other = paint;
        other.rows[3] = qRgb(200, 30, 40);
        ChartPainter painter;
        painter.setChart(chart, paint);
        QImage screen(1280, 800, QImage::Format_RGB32);
        View view = fitted(chart.grid, QSizeF(1280, 800));
        const auto frame = [&] {
            QPainter target(&screen);
            painter.paint(target, view, {}, QRectF(0, 0, 1280, 800), QColor(220, 220, 220));
        };
        frame();
        bool flip = false;
        const double painted = bestMs(6, [&] {
            flip = !flip;
            painter.setPaint(flip ? other : paint);
            frame();
        });
        const double outlined = bestMs(3, [&] {
            std::vector<std::uint32_t> labels(chart.grid.cells().begin(), chart.grid.cells().end());
            QPainter target(&screen);
            View near = view;
            near.cell = 2;
            paintOutlines(target, near, labels, side, side);
        });
        std::printf(
            "%4.2f M stitches fitted: setPaint with its frame %6.2f ms, outlines of noise at "
            "2 px %6.2f ms\n",
            side * side / 1e6, painted, outlined);
    }
}

TEST_CASE("crosses of a size are made in passing") {
    for (const int side : {8, 16, 32, 64, 96, 192}) {
        const double cross = bestMs(
            3, [&] { CHECK(!crossPicture(side, qRgb(68, 93, 118), 0.9, side % 4).isNull()); });
        const double cloth = bestMs(3, [&] { CHECK(!clothPicture(side, kGround).isNull()); });
        std::printf("%3d px: one cross %5.2f ms, one cloth %5.2f ms\n", side, cross, cloth);
    }
}

TEST_CASE("swatches are drawn by the table") {
    for (const Cloth& cloth :
         {Cloth{}, Cloth{thread::Weave::Linen, 2}, Cloth{thread::Weave::Block, 2}}) {
        for (const double cell : {6.0, 10.4, 20.8, 41.5}) {
            Swatch one{QSize(400, 200), qRgb(68, 93, 118), kGround, 0.86, cloth, cell};
            const auto draw = [&] { CHECK(!swatch(one).isNull()); };
            const double first = onceMs(draw);
            one.thread = qRgb(171, 52, 48);
            std::printf("weave %d, %4.1f px: first swatch of 400 x 200 %5.2f ms, next %5.2f ms\n",
                        static_cast<int>(cloth.weave), cell, first, bestMs(5, draw));
        }
    }
}
