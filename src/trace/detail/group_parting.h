#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

// Places are looks in units of their noise: cells that are the same lie about 1 apart along any
// one axis.

struct Group {
    std::vector<int> members; ///< rows of the places
    cv::Mat mean;
};

/// Sets the mean from the members.
void settle(Group& group, const cv::Mat& places);
[[nodiscard]] cv::Mat meansOf(const cv::Mat& places, const std::vector<int>& of, int groups);

/// Atoms that are one symbol come together: two stay apart where, along the line between their
/// means, they are far apart for their widths and hardly anything lies in between.
[[nodiscard]] std::vector<Group> merged(std::vector<Group> atoms, const cv::Mat& places);
/// Groups that are two symbols come apart, by the same measure.
[[nodiscard]] std::vector<Group> parted(std::vector<Group> groups, const cv::Mat& places);
/// How surely each place is of its group: far on the way to another, or unlike all the group's
/// others, is doubtful.
[[nodiscard]] std::vector<float> confidences(const std::vector<Group>& groups,
                                             const cv::Mat& places);

} // namespace otherskein::trace::detail
