#pragma once

#include "drawing/detail/cell_raster.h"
#include "drawing/detail/sprites.h"

namespace otherskein::drawing::detail {

/// Which of its variants a stitch is: always the same for a cell, without a pattern to the eye.
[[nodiscard]] int variantOf(int column, int row);

/// Fills the frame with the pictures of its cells, `margin` cells of ground around the chart
/// included; what lies farther out is left alone.
void paintNear(const Frame& frame, const CellRaster& raster, const chart::Grid& grid,
               Sprites& sprites, int margin);

/// Lines after every ten cells and around the chart, `width` pixels wide. `sprites` says on which
/// cells they are light; without it each pixel says so itself.
void paintTens(const Frame& frame, const CellRaster& raster, const chart::Grid& grid,
               const Sprites* sprites, int width, float strength);

} // namespace otherskein::drawing::detail
