#include "trace/detail/group.h"

#include <algorithm>

namespace otherskein::trace::detail {

void settle(Group& group, const cv::Mat& places) {
    group.mean = meanOf(group.members, places);
}

cv::Mat meansOf(const cv::Mat& places, const std::vector<int>& of, int groups) {
    cv::Mat means = cv::Mat::zeros(groups, places.cols, CV_32F);
    std::vector<int> counts(static_cast<std::size_t>(groups), 0);
    for (int i = 0; i < places.rows; ++i) {
        const int group = of[static_cast<std::size_t>(i)];
        means.row(group) += places.row(i);
        ++counts[static_cast<std::size_t>(group)];
    }
    for (int g = 0; g < groups; ++g) {
        means.row(g) /= std::max(1, counts[static_cast<std::size_t>(g)]);
    }
    return means;
}

cv::Mat meanOf(const std::vector<int>& members, const cv::Mat& rows) {
    cv::Mat mean = cv::Mat::zeros(1, rows.cols, CV_32F);
    for (const int i : members) {
        mean += rows.row(i);
    }
    return mean / static_cast<double>(std::max<std::size_t>(1, members.size()));
}

} // namespace otherskein::trace::detail
