#pragma once

#include "trace/detail/like_cells.h"
#include "trace/detail/line_kinds.h"

namespace otherskein::trace::detail {

/// A straight line that runs along no side of a cell, in half cells from the sheet's corner.
struct SlopedLine {
    int x1 = 0;
    int y1 = 0;
    int x2 = 0;
    int y2 = 0;
    int kind = 0;
};

/// Lines of the known kinds between corners, middles of sides and middles of cells, at any slope
/// but along the grid. A symbol's own stroke, which ends within its cell wherever the symbol
/// stands, is none.
[[nodiscard]] std::vector<SlopedLine> slopedLines(const Sheet& sheet,
                                                  const std::vector<LineKind>& kinds,
                                                  const std::vector<cv::Vec3f>& grounds,
                                                  const LikeCells& like, const cv::Vec3f& ink);

} // namespace otherskein::trace::detail
