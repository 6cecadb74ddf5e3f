#pragma once

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// Whether two means of pictures (see Pictures) are one plain colour where a program drew the page,
/// and differ by nothing but how much of the paper between such patches shows at their sides.
[[nodiscard]] bool areOneColour(const cv::Mat& one, const cv::Mat& other, int side);

} // namespace otherskein::trace::detail
