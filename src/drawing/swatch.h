#pragma once

#include "drawing/cloth.h"

#include <QImage>
#include <QRgb>
#include <QSize>

namespace otherskein::drawing {

/// A piece of cloth with some stitches in one thread on it.
struct Swatch {
    QSize size; ///< device pixels
    QRgb thread = qRgb(0, 0, 0);
    QRgb ground = qRgb(255, 255, 255);
    double coverage = 0.9; ///< share of a cell that a cross covers, 0..1
    Cloth cloth = {};
    /// Side of a stitch, device pixels, 3 at least; may be broken: each cell's sides are rounded.
    double cell = 12;

    bool operator==(const Swatch&) const = default;
};

/// Where the stitches lie, in pixels: from 8 % of the width and height on, as many whole cells as
/// come nearest to 65 % of the width and 70 % of the height, one at least.
[[nodiscard]] QRect stitchedPart(const Swatch& swatch);

/// Opaque, RGB32; null when the size is empty. Under 2 ms for 400 × 200 pixels once a thread has
/// drawn one with such stitches: for tables of them.
[[nodiscard]] QImage swatch(const Swatch& swatch);

} // namespace otherskein::drawing
