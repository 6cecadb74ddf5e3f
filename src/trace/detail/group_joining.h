#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

/// Groups that are one symbol come together, the likest first. `places`: rows as the pictures,
/// where near ones may be the same.
[[nodiscard]] std::vector<Group> joinedGroups(std::vector<Group> groups, const cv::Mat& places,
                                              const Pictures& pictures, const PrintNoise& noise);

} // namespace otherskein::trace::detail
