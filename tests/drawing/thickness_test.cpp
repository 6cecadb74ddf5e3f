#include <catch2/catch.hpp>

#include "colour/mixing.h"
#include "drawing/samples.h"
#include "drawing/swatch.h"

#include <array>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

// Thread gives green light only and the ground red light only: the share of thread in a picture can
// be read from each alone.
constexpr QRgb kGreenThread = qRgb(0, 150, 0);
constexpr QRgb kRedGround = qRgb(150, 0, 0);

/// sRGB (IEC 61966-2-1), written apart from the library's tables.
double lightOf(int srgb) {
    const double value = srgb / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double meanRed(const QImage& image, const QRect& area) {
    double sum = 0;
    for (int y = area.top(); y <= area.bottom(); ++y) {
        for (int x = area.left(); x <= area.right(); ++x) {
            sum += lightOf(qRed(image.pixel(x, y)));
        }
    }
    return sum / area.width() / area.height();
}

/// Pixels that are more thread than ground.
double greenShare(const QImage& image, const QRect& area) {
    int green = 0;
    for (int y = area.top(); y <= area.bottom(); ++y) {
        for (int x = area.left(); x <= area.right(); ++x) {
            const QRgb pixel = image.pixel(x, y);
            green += qGreen(pixel) > qRed(pixel) ? 1 : 0;
        }
    }
    return static_cast<double>(green) / area.width() / area.height();
}

/// Share of thread out of the light that the ground still gives.
double threadShare(const QImage& image, const QRect& area) {
    return 1 - meanRed(image, area) / lightOf(150);
}

/// What design and search compute: strands of 0.4 mm on a cell of 25.4 · over / count mm.
double coverageOf(int strands, int count, int over) {
    const double side = 25.4 * over / count;
    const double bare = std::max(0.0, 1 - std::numbers::sqrt2 * strands * 0.4 / side);
    return 1 - bare * bare;
}

struct Work {
    int strands;
    int count;
    int over;
};
constexpr std::array<Work, 9> kWorks{Work{1, 14, 1}, Work{2, 14, 1}, Work{3, 14, 1},
                                     Work{1, 18, 1}, Work{2, 18, 1}, Work{1, 36, 2},
                                     Work{2, 36, 2}, Work{4, 28, 2}, Work{6, 28, 2}};

chart::Chart filled(chart::KeyIndex row, int side = 40) {
    chart::Chart chart = sampleChart(side, side);
    for (auto& cell : chart.grid.cells()) {
        cell = row;
    }
    return chart;
}

Paint greenPaint() {
    Paint paint;
    paint.rows.assign(4, kGreenThread);
    paint.ground = kRedGround;
    return paint;
}

/// Whole cells of a picture 240 × 160 that begins at the chart's corner, eight each way at most.
QRect wholeCells(double cell) {
    const int cells = std::min(8, static_cast<int>(150 / cell));
    const int side = static_cast<int>(std::floor(cells * cell + 0.5));
    return {0, 0, side, side};
}

} // namespace

TEST_CASE("a stitched chart shows as much thread as its strands cover") {
    const chart::Chart chart = filled(0);
    ChartPainter painter;
    painter.setChart(chart, greenPaint());
    for (const Work& work : kWorks) {
        Layers layers = onlyStitches();
        layers.coverage = coverageOf(work.strands, work.count, work.over);
        for (const thread::Weave weave :
             {thread::Weave::Even, thread::Weave::Linen, thread::Weave::Block}) {
            layers.cloth = {weave, work.over};
            for (const double cell : {0.7, 2.0, 4.0, 6.0, 7.3, 8.0, 12.0, 18.4, 24.0, 48.0, 75.0}) {
                const QImage image = painted(painter, viewOf(cell, {0, 0}), layers);
                CAPTURE(work.strands, work.count, work.over, static_cast<int>(weave), cell);
                CHECK_THAT(threadShare(image, wholeCells(cell)),
                           Catch::WithinAbs(layers.coverage, 0.02));
                if (cell >= 24) {
                    CHECK_THAT(greenShare(image, wholeCells(cell)),
                               Catch::WithinAbs(layers.coverage, 0.02));
                }
            }
        }
    }
}

TEST_CASE("a swatch shows as much thread as the strands cover, and bare cloth around it") {
    for (const Work& work : kWorks) {
        for (const double cell : {6.0, 7.7, 11.0, 24.5, 48.0, 96.0}) {
            Swatch one{QSize(400, 300), kGreenThread, kRedGround, 0, {}, cell};
            one.coverage = coverageOf(work.strands, work.count, work.over);
            const QImage image = swatch(one);
            const QRect part = stitchedPart(one);
            CAPTURE(work.strands, work.count, work.over, cell);
            CHECK_THAT(threadShare(image, part), Catch::WithinAbs(one.coverage, 0.02));
            if (cell >= 24) {
                CHECK_THAT(greenShare(image, part), Catch::WithinAbs(one.coverage, 0.02));
            }
            CHECK(greenShare(image, QRect(0, 0, part.left(), 300)) == 0);
            CHECK(greenShare(image, QRect(part.right() + 1, 0, 399 - part.right(), 300)) == 0);
            CHECK(greenShare(image, QRect(0, part.bottom() + 1, 400, 299 - part.bottom())) == 0);
        }
    }
}

TEST_CASE("rows of one chart cover each as much as its own strands do") {
    chart::Chart chart = filled(0);
    for (int row = 0; row < 40; ++row) {
        for (int column = 8; column < 40; ++column) {
            chart.grid.set({column, row}, 1);
        }
    }
    Paint paint = greenPaint();
    paint.cover = {0.55F, 0.95F, 0.5F, 0.5F};
    ChartPainter painter;
    painter.setChart(chart, paint);
    for (const double cell : {0.5, 1.0, 2.5, 4.0, 6.0, 8.0, 14.0}) {
        const QImage image = painted(painter, viewOf(cell, {0, 0}), onlyStitches());
        const int side = static_cast<int>(8 * cell);
        CAPTURE(cell);
        CHECK_THAT(threadShare(image, QRect(0, 0, side, side)), Catch::WithinAbs(0.55, 0.02));
        CHECK_THAT(threadShare(image, QRect(side, 0, side, side)), Catch::WithinAbs(0.95, 0.02));
    }
    const chart::Chart thick = filled(1, 8);
    const chart::Chart thin = filled(0, 8);
    for (const int side : {6, 100}) { // from afar and near
        const QImage one = smallPicture(thick, paint, QSize(side, side));
        const QImage other = smallPicture(thin, paint, QSize(side, side));
        CHECK(qRed(one.pixel(side / 2, side / 2 + 1)) <= qRed(other.pixel(side / 2, side / 2 + 1)));
        CHECK(meanRed(one, one.rect()) < meanRed(other, other.rect()) - 0.02);
    }
}

TEST_CASE("other strands are another paint, and their order in time does not matter") {
    const chart::Chart chart = sampleChart(60, 50);
    const Paint even = paintOf(chart.key, kLinen);
    Paint mixed = even;
    mixed.cover = {0.6F, 0.9F, 1.0F, 0.75F};
    for (const double cell : {0.4, 2.0, 5.0, 9.3}) {
        const View view = viewOf(cell, {3, 2});
        ChartPainter painter = painterOf(chart);
        const QImage before = painted(painter, view, onlyStitches());
        painter.setPaint(mixed);
        ChartPainter anew;
        anew.setChart(chart, mixed);
        const QImage changed = painted(painter, view, onlyStitches());
        CAPTURE(cell);
        CHECK(changed == painted(anew, view, onlyStitches()));
        CHECK(changed != before);
        painter.setPaint(even);
        CHECK(painted(painter, view, onlyStitches()) == before);
    }
}

TEST_CASE("rows that all cover as the chart does look as without their own") {
    const chart::Chart chart = sampleChart(60, 50);
    Paint paint = paintOf(chart.key, kLinen);
    ChartPainter painter = painterOf(chart);
    for (const double cell : {0.4, 5.0, 9.3}) {
        painter.setPaint(paintOf(chart.key, kLinen));
        Layers layers = onlyStitches();
        layers.coverage = 0.75;
        const QImage plain = painted(painter, viewOf(cell, {3, 2}), layers);
        paint.cover.assign(4, 0.75F);
        painter.setPaint(paint);
        layers.coverage = 0.3; // no row asks for it
        CHECK(painted(painter, viewOf(cell, {3, 2}), layers) == plain);
    }
}

TEST_CASE("flat cells know nothing of strands") {
    const chart::Chart chart = sampleChart(60, 50);
    ChartPainter painter = painterOf(chart);
    const QImage plain = painted(painter, viewOf(9, {3, 2}), onlyFlat());
    Paint paint = paintOf(chart.key, kLinen);
    paint.cover.assign(4, 0.5F);
    painter.setPaint(paint);
    CHECK(painted(painter, viewOf(9, {3, 2}), onlyFlat()) == plain);
}

TEST_CASE("backstitch is as thick as its strands, and a pixel at least") {
    chart::Chart chart = filled(2);
    chart.lines = {{0, 10, 80, 10, 3}};
    ChartPainter painter = painterOf(chart);
    Layers layers = onlyFlat();
    layers.lines = true;
    const auto thickness = [&](double cell) {
        const QImage image = painted(painter, viewOf(cell, {0, 0}), layers);
        double ink = 0; // in pixels of plain thread
        const double bare = lightOf(qRed(image.pixel(100, 1)));
        for (int y = 0; y < 159; ++y) {
            ink += (bare - lightOf(qRed(image.pixel(100, y)))) / bare;
        }
        return ink;
    };
    for (const double width : {0.11, 0.22, 0.44, 0.62}) {
        layers.lineWidth = width;
        CAPTURE(width);
        // Black takes nearly all light; the lit side of a thick thread leaves a little.
        CHECK_THAT(thickness(24), Catch::WithinRel(std::max(1.0, 24 * width), 0.12));
        CHECK(thickness(4) > 0.8);
    }
    layers.lineWidth = 0.02;
    CHECK_THAT(thickness(24), Catch::WithinRel(1.0, 0.12));
    layers.lineWidth = 0;
    const double middling = thickness(24);
    layers.lineWidth = 0.22;
    CHECK_THAT(thickness(24), Catch::WithinAbs(middling, 1e-9));
}
