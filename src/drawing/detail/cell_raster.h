#pragma once

#include "drawing/chart_painter.h"

#include <QRect>
#include <QRgb>

#include <algorithm>
#include <cmath>

namespace otherskein::drawing::detail {

/// Where cells lie on whole device pixels. A cell's sides are rounded, not its size: cells of 7.3
/// pixels are 7 or 8 wide and leave no seams. The origin is rounded first, so that the chart does
/// not change while it is moved.
struct CellRaster {
    double cell = 8; ///< device pixels
    int left = 0;
    int top = 0;

    explicit CellRaster(const View& view)
        : cell(view.cell * view.pixelRatio),
          left(static_cast<int>(std::floor(view.origin.x() * view.pixelRatio + 0.5))),
          top(static_cast<int>(std::floor(view.origin.y() * view.pixelRatio + 0.5))) {}

    /// The side before column or row `i`, relative to the origin.
    [[nodiscard]] int side(int i) const { return static_cast<int>(std::floor(i * cell + 0.5)); }
    [[nodiscard]] int x(int column) const { return left + side(column); }
    [[nodiscard]] int y(int row) const { return top + side(row); }
    /// The cell that holds a pixel relative to the origin; may lie outside the chart.
    [[nodiscard]] int holding(int pixel) const {
        int i = static_cast<int>(std::floor(pixel / cell));
        while (side(i) > pixel) {
            --i;
        }
        while (side(i + 1) <= pixel) {
            ++i;
        }
        return i;
    }
    /// Half cells, as chart::Line has them: middles lie between the rounded sides.
    [[nodiscard]] double xOfHalf(int half) const { return left + ofHalf(half); }
    [[nodiscard]] double yOfHalf(int half) const { return top + ofHalf(half); }

  private:
    [[nodiscard]] double ofHalf(int half) const {
        return half % 2 == 0 ? side(half / 2) : (side(half / 2) + side(half / 2 + 1)) / 2.0;
    }
};

/// A run of cells, `first` up to but without `end`.
struct Run {
    int first = 0;
    int end = 0;
};

/// The pixels of a frame: a rectangle of the device.
struct Frame {
    QRgb* bits = nullptr;
    qsizetype stride = 0; ///< pixels from one line to the next
    QRect area;           ///< device pixels

    [[nodiscard]] QRgb* line(int y) const { return bits + stride * (y - area.top()); }
    [[nodiscard]] int left() const { return area.left(); }
    [[nodiscard]] int right() const { return area.left() + area.width(); } ///< the first outside
    [[nodiscard]] int top() const { return area.top(); }
    [[nodiscard]] int bottom() const { return area.top() + area.height(); }

    /// Cells between `least` and `end` of which something lies in the frame.
    [[nodiscard]] Run columns(const CellRaster& raster, int least, int end) const {
        return {std::max(least, raster.holding(left() - raster.left)),
                std::min(end, raster.holding(right() - 1 - raster.left) + 1)};
    }
    [[nodiscard]] Run rows(const CellRaster& raster, int least, int end) const {
        return {std::max(least, raster.holding(top() - raster.top)),
                std::min(end, raster.holding(bottom() - 1 - raster.top) + 1)};
    }
};

} // namespace otherskein::drawing::detail
