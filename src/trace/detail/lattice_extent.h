#pragma once

#include "trace/detail/lattice.h"

#include <optional>

namespace otherskein::trace::detail {

/// Where the grid ends on its lattice: `seed` is surely inside. None when too little of the seed
/// looks like a grid, or the grid is smaller than 4 × 4 cells. In the lattice's cells.
[[nodiscard]] std::optional<cv::Rect> extentOf(const cv::Mat& bgr, const Lattice& lattice,
                                               const cv::Rect2d& seed);

} // namespace otherskein::trace::detail
