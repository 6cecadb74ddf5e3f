#pragma once

#include "chart/grid.h"
#include "trace/detail/bare_cells.h"
#include "trace/detail/found_rows.h"
#include "trace/detail/groups.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Pages that overlap often print the cells that are on the other page too in grey. Such cells look
/// unlike the same symbol elsewhere and make groups of their own; what they are is said by the
/// other page. Joins every group that lies in overlaps and there always stands for the same other
/// group with that one. `places`: column and row of each grid in the whole chart.
void joinOverlaps(std::span<const LookGrid> grids, std::span<const chart::Cell> places,
                  Groups& groups, std::vector<GroupLook>& looks);

} // namespace otherskein::trace::detail
