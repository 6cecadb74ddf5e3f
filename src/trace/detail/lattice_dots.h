#pragma once

#include "trace/detail/line_map.h"

#include <optional>

namespace otherskein::trace::detail {

/// The grid of a page that prints a dot at every crossing and a frame around them: equal dots that
/// repeat exactly both ways, upright, on the lines of a frame. None where most crossings have no
/// dot, or nothing frames them: dots may as well be what is stitched.
[[nodiscard]] std::optional<Lattice> gridOfDots(const cv::Mat& bgr, const LineMaps& maps);

} // namespace otherskein::trace::detail
