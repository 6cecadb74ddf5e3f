#pragma once

#include "trace/detail/median.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// The medians of the colours' channels, each by itself; black where there are none.
template <typename Number>
[[nodiscard]] cv::Vec<Number, 3> medianColourOf(const std::vector<cv::Vec<Number, 3>>& colours) {
    cv::Vec<Number, 3> middle;
    for (int c = 0; c < 3; ++c) {
        std::vector<Number> levels;
        levels.reserve(colours.size());
        for (const cv::Vec<Number, 3>& one : colours) {
            levels.push_back(one[c]);
        }
        middle[c] = medianOf(std::move(levels));
    }
    return middle;
}

} // namespace otherskein::trace::detail
