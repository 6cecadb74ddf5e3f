#pragma once

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// Whether a page is drawn in light lines on a dark ground without colour, and no paper is light.
/// `bgr`: 8 bits, three channels.
[[nodiscard]] bool isNegative(const cv::Mat& bgr);

} // namespace otherskein::trace::detail
