#include <catch2/catch.hpp>

#include "colour/mixing.h"
#include "drawing/samples.h"

#include <array>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

/// Widget point of a cell's middle, as a pixel of the device.
QPoint middleOf(const View& view, int column, int row) {
    const QPointF point = fromCells(view, {column + 0.5, row + 0.5}) * view.pixelRatio;
    return {static_cast<int>(std::floor(point.x())), static_cast<int>(std::floor(point.y()))};
}

QRgb colourOf(const chart::Chart& chart, int column, int row) {
    const chart::KeyIndex key = chart.grid.at({column, row});
    return key == chart::kBare ? kLinen : paintOf(chart.key, kLinen).rows[key];
}

} // namespace

TEST_CASE("a flat cell has its colour in its middle at every zoom and pixel ratio") {
    const chart::Chart chart = sampleChart(60, 50);
    ChartPainter painter = painterOf(chart);
    for (const double ratio : {1.0, 1.25, 1.5, 2.0}) {
        for (const double cell : {2.6, 3.0, 4.4, 7.1, 9.9, 23.7}) {
            const View view = viewOf(cell, {-31.4, -17.8}, ratio);
            const QImage image = painted(painter, view, onlyFlat());
            for (int row = 0; row < 50; ++row) {
                for (int column = 0; column < 60; ++column) {
                    const QPoint middle = middleOf(view, column, row);
                    if (image.rect().contains(middle)) {
                        CAPTURE(ratio, cell, column, row);
                        CHECK(image.pixel(middle) == colourOf(chart, column, row));
                    }
                }
            }
        }
    }
}

TEST_CASE("cells of a broken size meet without seams") {
    chart::Chart chart = sampleChart(60, 50);
    for (auto& cell : chart.grid.cells()) {
        cell = 1;
    }
    ChartPainter painter = painterOf(chart);
    for (const double cell : {0.1, 0.37, 0.9, 1.3, 2.9, 3.3, 5.7, 7.1, 13.6}) {
        const View view = viewOf(cell, {-0.3 * cell, -0.2 * cell});
        const QImage image = painted(painter, view, onlyFlat());
        const int right = std::min(240, static_cast<int>(59 * cell)) - 1;
        const int bottom = std::min(160, static_cast<int>(49 * cell)) - 1;
        int other = 0;
        for (int y = 0; y <= bottom; ++y) {
            for (int x = 0; x <= right; ++x) {
                other += image.pixel(x, y) == colourOf(chart, 0, 0) ? 0 : 1;
            }
        }
        CAPTURE(cell);
        CHECK(other == 0);
    }
}

TEST_CASE("panning by whole pixels shifts the picture exactly") {
    const chart::Chart chart = sampleChart(90, 80);
    ChartPainter painter = painterOf(chart);
    for (const double ratio : {1.0, 2.0}) {
        for (const double cell : {0.8, 1.7, 3.4, 5.2, 7.1, 12.9}) {
            for (const Layers& layers : {onlyFlat(), onlyStitches(), Layers{}}) {
                const View view = viewOf(cell, {-40.3, -30.6}, ratio);
                View panned = view;
                panned.origin += QPointF(17, -9);
                const QImage before = painted(painter, view, layers);
                const QImage after = painted(painter, panned, layers);
                const int dx = static_cast<int>(17 * ratio);
                const int dy = static_cast<int>(9 * ratio);
                const QSize common(before.width() - dx, before.height() - dy);
                CAPTURE(ratio, cell, layers.stitches, layers.grid);
                CHECK(before.copy(QRect(QPoint(0, dy), common)) ==
                      after.copy(QRect(QPoint(dx, 0), common)));
            }
        }
    }
}

TEST_CASE("changed cells look as if the chart had been set anew") {
    const chart::Chart first = sampleChart(90, 81);
    chart::Chart second = first;
    for (int row = 5; row < 18; ++row) {
        for (int column = 7; column < 20; ++column) {
            second.grid.set({column, row}, 2);
        }
    }
    second.grid.set({89, 80}, 3);
    for (const Layers& layers : {onlyFlat(), onlyStitches()}) {
        for (const double cell : {0.2, 0.5, 1.1, 3.3, 8.0}) {
            const View view = viewOf(cell, {3, 2});
            ChartPainter painter = painterOf(first);
            const QImage before = painted(painter, view, layers);
            painter.setCells(second.grid, {7, 5, 13, 13});
            painter.setCells(second.grid, {89, 80, 1, 1});
            ChartPainter anew = painterOf(second);
            CAPTURE(cell);
            const QImage changed = painted(painter, view, layers);
            CHECK(changed == painted(anew, view, layers));
            CHECK(changed != before);
            CHECK(painter.grid() == second.grid);
        }
    }
}

TEST_CASE("another paint looks as if the chart had been set with it") {
    const chart::Chart chart = sampleChart(60, 50);
    Paint other = paintOf(chart.key, qRgb(0x23, 0x2c, 0x40));
    other.rows[1] = qRgb(10, 200, 90);
    for (const double cell : {0.4, 2.0, 5.0, 9.0}) {
        const View view = viewOf(cell, {3, 2});
        ChartPainter painter = painterOf(chart);
        const QImage before = painted(painter, view, {});
        painter.setPaint(other);
        ChartPainter anew;
        anew.setChart(chart, other);
        const QImage changed = painted(painter, view, {});
        CHECK(changed == painted(anew, view, {}));
        CHECK(changed != before);
    }
}

TEST_CASE("stitched areas keep their apparent colour from afar to near") {
    chart::Chart chart = sampleChart(40, 40);
    for (auto& cell : chart.grid.cells()) {
        cell = 0;
    }
    for (const double coverage : {0.6, 0.9}) {
        const colour::Lab seen =
            colour::apparentColour(labOf(qRgb(0x44, 0x5d, 0x76)), labOf(kLinen), coverage);
        for (const double cell : {0.6, 2.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.0, 20.0}) {
            ChartPainter painter = painterOf(chart);
            Layers layers = onlyStitches();
            layers.coverage = coverage;
            const QImage image = painted(painter, viewOf(cell, {0, 0}), layers);
            const int side = static_cast<int>(std::floor(std::min(7.0, 19 / cell) + 1) * cell);
            CAPTURE(coverage, cell);
            CHECK(colour::deltaE00(meanLab(image, QRect(0, 0, side, side)), seen) < 2);
        }
    }
}

TEST_CASE("around the chart lie three cells of ground, then the surround") {
    chart::Chart chart = sampleChart(10, 6);
    ChartPainter painter = painterOf(chart);
    const View view = viewOf(10, {60, 50});
    const QImage image = painted(painter, view, onlyFlat());
    CHECK(image.pixel(29, 80) == kSurround);
    CHECK(image.pixel(30, 80) == kLinen);
    CHECK(image.pixel(59, 80) == kLinen);
    CHECK(image.pixel(189, 80) == kLinen);
    CHECK(image.pixel(190, 80) == kSurround);
    CHECK(image.pixel(100, 19) == kSurround);
    CHECK(image.pixel(100, 20) == kLinen);
    CHECK(image.pixel(100, 139) == kLinen);
    CHECK(image.pixel(100, 140) == kSurround);
}

TEST_CASE("nothing is painted outside the clip, and all of it inside") {
    const chart::Chart chart = sampleChart(90, 80);
    ChartPainter painter = painterOf(chart);
    for (const double cell : {0.5, 1.5, 8.0}) {
        const View view = viewOf(cell, {-4, 7});
        const QRectF clip(33, 20, 60, 41);
        const QImage whole = painted(painter, view, {});
        const QImage part = painted(painter, view, {}, clip);
        for (int y = 0; y < 160; ++y) {
            for (int x = 0; x < 240; ++x) {
                const bool isInside = clip.contains(QPointF(x + 0.5, y + 0.5));
                if (part.pixel(x, y) != (isInside ? whole.pixel(x, y) : qRgb(255, 0, 255))) {
                    CAPTURE(cell, x, y);
                    REQUIRE(false);
                }
            }
        }
    }
}

TEST_CASE("grid lines are seen on light and on dark cells, bolder every ten") {
    for (const chart::KeyIndex row : std::array<chart::KeyIndex, 2>{2, 3}) {
        chart::Chart chart = sampleChart(30, 20);
        for (auto& cell : chart.grid.cells()) {
            cell = row;
        }
        ChartPainter painter = painterOf(chart);
        Layers layers = onlyFlat();
        layers.grid = true;
        const QImage image = painted(painter, viewOf(12, {0, 0}), layers);
        const int cell = qGray(image.pixel(18, 18));
        const int hairline = std::abs(qGray(image.pixel(36, 18)) - cell);
        const int ten = std::abs(qGray(image.pixel(120, 18)) - cell);
        CAPTURE(row);
        CHECK(hairline >= 8);
        CHECK(ten >= hairline + 8);
        layers.grid = false;
        CHECK(qGray(painted(painter, viewOf(12, {0, 0}), layers).pixel(36, 18)) == cell);
    }
}

TEST_CASE("marks are drawn in an ink that stands off, and left out where too small") {
    chart::Chart chart = sampleChart(30, 20);
    for (auto& cell : chart.grid.cells()) {
        cell = 3;
    }
    chart.key[3].symbol = QStringLiteral("disc");
    ChartPainter painter = painterOf(chart);
    painter.setMarks(marksOf(chart.key));
    Layers layers = onlyFlat();
    layers.symbols = true;
    const View view = viewOf(16, {0, 0});
    CHECK(qGray(painted(painter, view, layers).pixel(24, 24)) > 240);
    CHECK(painted(painter, view, layers).pixel(17, 17) == colourOf(chart, 0, 0));
    CHECK(painted(painter, viewOf(6, {0, 0}), layers).pixel(9, 9) == colourOf(chart, 0, 0));
}

TEST_CASE("backstitch runs where its half cells say, in its thread's colour") {
    chart::Chart chart = sampleChart(20, 12);
    for (auto& cell : chart.grid.cells()) {
        cell = 2;
    }
    chart.lines = {{2, 4, 8, 4, 1}, {11, 5, 11, 15, 1}};
    ChartPainter painter = painterOf(chart);
    Layers layers = onlyFlat();
    layers.lines = true;
    const QImage image = painted(painter, viewOf(10, {0, 0}), layers);
    const auto isRed = [&](int x, int y) { return qGreen(image.pixel(x, y)) < 110; };
    CHECK(isRed(25, 20));
    CHECK_FALSE(isRed(25, 23));
    CHECK_FALSE(isRed(45, 20));
    CHECK(isRed(55, 50)); // in the middle of column 5
    CHECK_FALSE(isRed(60, 50));
    painter.setLines({});
    CHECK(painted(painter, viewOf(10, {0, 0}), layers).pixel(25, 20) == colourOf(chart, 0, 0));
}

TEST_CASE("an empty chart is all surround") {
    ChartPainter painter;
    const QImage image = painted(painter, viewOf(10, {5, 5}), {});
    CHECK(image.pixel(0, 0) == kSurround);
    CHECK(image.pixel(120, 80) == kSurround);
}
