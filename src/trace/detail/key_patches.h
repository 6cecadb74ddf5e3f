#pragma once

#include "trace/tracing.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// How large patches of a colour are that stand beside the grids of pages as in a key: full of it,
/// about as large as cells. px a side. `colour`: BGR, where paper is 255.
[[nodiscard]] std::vector<double>
patchesBeside(std::span<const Page> pages, std::span<const Piece> pieces, const cv::Vec3f& colour);

} // namespace otherskein::trace::detail
