#pragma once

#include "drawing/detail/cell_raster.h"
#include "drawing/flat.h"

namespace otherskein::drawing::detail {

/// Backstitch as round twisted thread, `strength` 0..1 to let it fade when it gets too small.
/// `width` in cells, 0 for a middling thread; at least a pixel is drawn. Only lines that reach into
/// the frame cost more than a comparison.
void paintBackstitch(const Frame& frame, const CellRaster& raster,
                     std::span<const chart::Line> lines, const Paint& paint, double width,
                     double strength);

} // namespace otherskein::drawing::detail
