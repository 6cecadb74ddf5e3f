#pragma once

#include "trace/detail/sheet.h"

#include <vector>

namespace otherskein::trace::detail {

/// Where each cell's middle lies on the page's pixels, 0 to 1 both ways, row by row. To a hundredth
/// of a pixel from one column or row to the next, if the page was drawn by a program and is
/// upright: the grid is taken as its own lines say, which is finer than what serves to find cells.
[[nodiscard]] std::vector<cv::Point2f> pixelPhasesOf(const Sheet& sheet);

} // namespace otherskein::trace::detail
