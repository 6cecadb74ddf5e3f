#pragma once

#include "trace/detail/sheet.h"

#include <vector>

namespace otherskein::trace::detail {

/// The usual colour of each cell around its symbol, BGR: that of its ring near the sides, or paper
/// where all the ring's corners have it and a broad sign that has no corners fills the rest.
[[nodiscard]] std::vector<cv::Vec3f> groundsOf(const Sheet& sheet);

} // namespace otherskein::trace::detail
