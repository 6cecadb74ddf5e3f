#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

/// Groups that are one symbol come together, the likest first. `places`: rows as the pictures,
/// where near ones may be the same. `byPhase` grows by how many were two by the page's pixels
/// alone. With `mayMove`, also those that lie elsewhere in their cells, whose pictures are then
/// moved.
[[nodiscard]] std::vector<Group> joinedGroups(std::vector<Group> groups, const cv::Mat& places,
                                              Pictures& pictures, const PrintNoise& noise,
                                              int& byPhase, bool mayMove);

} // namespace otherskein::trace::detail
