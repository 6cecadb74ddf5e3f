#pragma once

#include "trace/detail/lattice_fit.h"

#include <optional>

namespace otherskein::trace::detail {

/// Where the grid ends on its lattice: `seed` is surely inside. None when too little of the seed
/// looks like a grid, or the grid is smaller than 4 × 4 cells. In the lattice's cells.
[[nodiscard]] std::optional<cv::Rect> extentOf(const cv::Mat& bgr, const Lattice& lattice,
                                               const cv::Rect2d& seed);

/// Makes the cells of `found` two or three times as large where only every second or third of its
/// lines is one, or that many times smaller where more lines lie between them.
void decidePitch(const cv::Mat& bgr, FoundLattice& found);

/// Whether at its lines there is more to see than between them, both ways: not so in lines of text,
/// nor in a table whose columns are of any width.
[[nodiscard]] bool showsLines(const cv::Mat& bgr, const Lattice& grid);

} // namespace otherskein::trace::detail
