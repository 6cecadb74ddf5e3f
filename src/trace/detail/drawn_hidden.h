#pragma once

#include "trace/detail/backstitch.h"
#include "trace/detail/drawn_kinds.h"
#include "trace/detail/groups.h"

#include <set>
#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// What of a drawn sheet lies under lines: CV_8U, as the sheet, 255 there. `lines` were found on a
/// smaller picture of it, and cover more than they need; here their own colour says where they end.
[[nodiscard]] cv::Mat drawnMaskOf(const Sheet& drawn, const Backstitch& lines);

/// Adds to `mask` (as drawnMaskOf) and to `masked` (of each cell) what has a line's colour in cells
/// where no line was found: knots, ends, lines that were missed. Not where symbols have that
/// colour too.
void coverStrays(const Sheet& drawn, const Backstitch& lines, cv::Mat& mask,
                 std::span<char> masked);

/// Puts each cell that is `masked` (its part of `masks` is 255 under a line) into the group that
/// what is seen of it is of. Cells that are like no group are new ones, which `groups.count` tells;
/// they are doubtful. Groups that are `marked` are others but for what may be a line that was
/// missed: the other comes first.
void placeHidden(std::span<const Sheet> sheets, const std::vector<DrawnCell>& cells,
                 const std::vector<char>& masked, std::span<const cv::Mat> masks,
                 const DrawnKinds& kinds, const std::set<int>& marked, Groups& groups);

} // namespace otherskein::trace::detail
