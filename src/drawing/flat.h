#pragma once

#include "chart/chart.h"

#include <QImage>

#include <span>

namespace otherskein::drawing {

/// The colours that a chart is drawn in.
struct Paint {
    std::vector<QRgb> rows; ///< one a key row
    QRgb ground = qRgb(255, 255, 255);
    /// Share of its cell that a cross of the row covers, 0..1, one a row (asserted): rows worked
    /// with other strands. Empty: all rows as Layers::coverage says.
    std::vector<float> cover = {};

    bool operator==(const Paint&) const = default;
};

/// As the pixels of its key.
[[nodiscard]] Paint paintOf(const chart::Key& key, QRgb ground);

/// One pixel a stitch, RGB32. Shapes: every index of `grid` is kBare or below `paint.rows.size()`.
[[nodiscard]] QImage flatImage(const chart::Grid& grid, const Paint& paint);
/// Paints only the cells of `area` into an image made by `flatImage`.
void paintFlat(QImage& image, const chart::Grid& grid, const Paint& paint, const chart::Area& area);

/// Half the size each way (rounded up), averaged in linear light, as the eye does from afar.
[[nodiscard]] QImage halved(const QImage& image);

/// The chart, lines and all, fitted into `size` pixels with its ground around it: for walls and
/// lists. Cells larger than about 5 px are drawn as stitches, smaller ones averaged in linear
/// light.
[[nodiscard]] QImage smallPicture(const chart::Chart& chart, const Paint& paint, const QSize& size);

} // namespace otherskein::drawing
