#pragma once

#include "trace/detail/line_map.h"

#include <optional>

namespace otherskein::trace::detail {

struct Extent {
    cv::Rect cells;       ///< in the lattice's cells
    double lines = 0;     ///< share of the sides of its cells that have a line, the lesser of both
                          ///< ways
    double moreLines = 0; ///< the same, the greater
    double standOut = 0;  ///< that, less the share of places half a cell from them that have one,
                          ///< the lesser of both ways
};

/// Where the grid ends on its lattice: `seed` is surely inside. None when too little of the seed
/// looks like a grid, or the grid is smaller than 4 × 4 cells.
[[nodiscard]] std::optional<Extent> extentOf(const cv::Mat& bgr, const LineMaps& maps,
                                             const Lattice& lattice, const cv::Rect2d& seed);

} // namespace otherskein::trace::detail
