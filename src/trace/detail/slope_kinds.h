#pragma once

#include "trace/detail/line_kinds.h"

namespace otherskein::trace::detail {

/// Kinds of lines that run from corner to corner over several cells, across the grid: for charts
/// whose lines along sides of cells are too few to show their kind.
[[nodiscard]] std::vector<LineKind>
slopeKinds(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds, const cv::Vec3f& ink);

} // namespace otherskein::trace::detail
