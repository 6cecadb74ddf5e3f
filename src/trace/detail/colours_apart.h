#pragma once

#include <opencv2/core.hpp>

#include <algorithm>
#include <cstdlib>

namespace otherskein::trace::detail {

/// By how much two colours differ in the channel where they do most. cv::norm says the same, but
/// makes two matrices of them first, which shows where it is asked at every pixel.
[[nodiscard]] inline int apart(const cv::Vec3b& one, const cv::Vec3b& other) {
    return std::max(
        {std::abs(one[0] - other[0]), std::abs(one[1] - other[1]), std::abs(one[2] - other[2])});
}

} // namespace otherskein::trace::detail
