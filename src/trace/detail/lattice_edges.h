#pragma once

#include "trace/detail/line_map.h"

namespace otherskein::trace::detail {

/// Where a grid ends whose page is bent: `cells` and those further out that follow where the
/// lattice is settled anew from near each of the four ends. A page that curls at its spine has its
/// last lines where no flat page would.
[[nodiscard]] cv::Rect followedOutward(const cv::Mat& bgr, const LineMaps& maps,
                                       const Lattice& lattice, const cv::Rect& cells);

} // namespace otherskein::trace::detail
