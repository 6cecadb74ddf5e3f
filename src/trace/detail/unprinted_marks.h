#pragma once

#include "trace/detail/bare_cells.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Marks as bare, and doubtful, the groups that are nothing but what a line of backstitch left: a
/// bar all along one side, in cells that lie at lines (`masked`).
void markLineRests(const std::vector<char>& masked, Groups& groups,
                   std::vector<GroupLook>& groupLooks);

/// Makes the groups doubtful that stand in a grid's outermost row or column only and have nothing
/// in their middle: what a frame and the bold lines that end there left.
void doubtFrameRests(std::span<const LookGrid> grids, Groups& groups,
                     std::span<const GroupLook> groupLooks);

/// Makes the groups doubtful that are but a grey on paper and lie in one or two rows or columns: a
/// fold, the shade of a page's edge. They are bare if all they have is a pale stripe along these.
void markFolds(std::span<const LookGrid> grids, Groups& groups, std::vector<GroupLook>& groupLooks);

/// What is printed has edges. Makes the groups doubtful whose marks have none, or far softer ones
/// than others of the page: stains and shade.
void doubtSoftMarks(Groups& groups, std::span<const GroupLook> groupLooks);

/// A page is printed with one ink. Makes the few groups doubtful that are far paler than is usual
/// on the page: pencil marks, tape, what shows through from the page's back. It may be a thread
/// that is nearly white.
void doubtPaleMarks(Groups& groups, std::span<const GroupLook> groupLooks);

} // namespace otherskein::trace::detail
