#pragma once

#include "colour/conversion.h"
#include "colour/difference.h"
#include "drawing/chart_painter.h"

#include <QImage>
#include <QPainter>

#include <cmath>
#include <random>

namespace otherskein::drawing {

inline constexpr QRgb kLinen = qRgb(0xcd, 0xbf, 0xa6);
inline constexpr QRgb kSurround = qRgb(0x80, 0x80, 0x80);
inline constexpr double kWidth = 240;
inline constexpr double kHeight = 160;

inline chart::Key sampleKey() {
    chart::Key key(4);
    key[0].pixel = {0x44, 0x5d, 0x76};
    key[1].pixel = {0xab, 0x34, 0x30};
    key[2].pixel = {0xe7, 0xc1, 0x5a};
    key[3].pixel = {0x20, 0x22, 0x28};
    return key;
}

/// Patches of each row and of bare ground, the same every time.
inline chart::Chart sampleChart(int columns, int rows, unsigned seed = 3) {
    chart::Chart chart;
    chart.key = sampleKey();
    chart.grid = chart::Grid(columns, rows);
    std::mt19937 random(seed);
    for (auto& cell : chart.grid.cells()) {
        const auto row = random() % 5;
        cell = row == 4 ? chart::kBare : static_cast<chart::KeyIndex>(row);
    }
    return chart;
}

inline View viewOf(double cell, const QPointF& origin, double pixelRatio = 1) {
    return {cell, origin, QSizeF(kWidth, kHeight), pixelRatio};
}

inline Layers onlyFlat() {
    return {false, false, false, false, 0.9};
}
inline Layers onlyStitches() {
    return {true, false, false, false, 0.9};
}

/// The window's pixels; `before` shows where nothing was painted.
inline QImage painted(ChartPainter& painter, const View& view, const Layers& layers,
                      std::optional<QRectF> clip = std::nullopt, QRgb before = qRgb(255, 0, 255)) {
    QImage image((view.size * view.pixelRatio).toSize(), QImage::Format_RGB32);
    image.setDevicePixelRatio(view.pixelRatio);
    image.fill(before);
    QPainter target(&image);
    painter.paint(target, view, layers, clip.value_or(QRectF(QPointF(), view.size)),
                  QColor(kSurround));
    target.end();
    image.setDevicePixelRatio(1);
    return image;
}

inline ChartPainter painterOf(const chart::Chart& chart, QRgb ground = kLinen) {
    ChartPainter painter;
    painter.setChart(chart, paintOf(chart.key, ground));
    return painter;
}

inline colour::Lab labOf(QRgb colour) {
    return colour::labFromSrgb(colour::Srgb8{static_cast<std::uint8_t>(qRed(colour)),
                                             static_cast<std::uint8_t>(qGreen(colour)),
                                             static_cast<std::uint8_t>(qBlue(colour))});
}

/// The mean of a picture's light, weighted by opacity, as CIELAB; written apart from the library's
/// tables.
inline colour::Lab meanLab(const QImage& picture, const QRect& area) {
    // QImage::pixel gives premultiplied pixels as they are.
    const QImage image = picture.convertToFormat(QImage::Format_ARGB32);
    colour::Xyz sum;
    double weight = 0;
    for (int y = area.top(); y <= area.bottom(); ++y) {
        for (int x = area.left(); x <= area.right(); ++x) {
            const QRgb pixel = image.pixel(x, y);
            const double alpha = qAlpha(pixel) / 255.0;
            const colour::Xyz xyz = colour::xyzFromLab(labOf(pixel));
            sum.X += alpha * xyz.X;
            sum.Y += alpha * xyz.Y;
            sum.Z += alpha * xyz.Z;
            weight += alpha;
        }
    }
    return colour::labFromXyz({sum.X / weight, sum.Y / weight, sum.Z / weight});
}

} // namespace otherskein::drawing
