#pragma once

#include "trace/detail/found_rows.h"

namespace otherskein::trace::detail {

/// Which groups are cells that a speck of dirt lies in: specks lie anywhere, so that cells with one
/// at about the same place make a group, and the next place makes another. A symbol that is no
/// more than a dot lies at one place in all its cells, and most dots of the page are such.
/// `paper`: the group that is bare for sure; other groups may be called bare already.
[[nodiscard]] std::vector<char> speckGroups(const cv::Mat& looks, const Groups& groups,
                                            const std::vector<GroupLook>& found, std::size_t paper);

} // namespace otherskein::trace::detail
