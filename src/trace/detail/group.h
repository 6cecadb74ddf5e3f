#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

// Places are looks in units of their noise: cells that are the same lie about 1 apart along any
// one axis.

/// Cells that may mean the same.
struct Group {
    std::vector<int> members; ///< rows of the places
    cv::Mat mean;             ///< of their places
};

/// Sets the mean from the members.
void settle(Group& group, const cv::Mat& places);
/// Means of so many groups; `of` says each place's.
[[nodiscard]] cv::Mat meansOf(const cv::Mat& places, const std::vector<int>& of, int groups);
/// The mean of those rows.
[[nodiscard]] cv::Mat meanOf(const std::vector<int>& members, const cv::Mat& rows);

} // namespace otherskein::trace::detail
