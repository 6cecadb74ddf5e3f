#pragma once

#include "trace/detail/group_parting.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

/// What printing did to the cells of these groups. `pictures` and the groups' members are the same
/// rows; at least one group has members.
[[nodiscard]] PrintNoise noiseOf(const std::vector<Group>& groups, const Pictures& pictures);

/// Groups that are one symbol come together, the likest first. `places`: rows as the pictures,
/// where near ones may be the same. `phases`: of each row, where on the page's pixels its cell
/// lies, from 0 to 1 both ways.
[[nodiscard]] std::vector<Group> joinedGroups(std::vector<Group> groups, const cv::Mat& places,
                                              const Pictures& pictures,
                                              const std::vector<cv::Point2f>& phases,
                                              const PrintNoise& noise);

/// Groups of a cell or two that are near to a larger one join it: specks and creases make many.
/// Their members are told in `strays`, since a symbol may indeed stand in one cell only.
[[nodiscard]] std::vector<Group> withoutStrays(std::vector<Group> groups, const Pictures& pictures,
                                               const PrintNoise& noise, std::vector<int>& strays);

/// How surely each picture is of its group: one that is nearly as like another group, or unlike all
/// the others of its own, is doubtful.
[[nodiscard]] std::vector<float> surenessOf(const std::vector<Group>& groups,
                                            const Pictures& pictures, const PrintNoise& noise);

} // namespace otherskein::trace::detail
