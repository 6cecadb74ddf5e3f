#pragma once

#include "trace/detail/beside_chart.h"
#include "trace/detail/found_rows.h"

#include <span>

namespace otherskein::trace::detail {

/// Where the looks of one sheet's cells lie: row by row from `first` on.
struct LookGrid {
    int first = 0;
    int columns = 0;
    int rows = 0;
};

/// Marks the groups of bare cells: those with nothing in them, on paper. Shade may divide paper
/// into many groups: one is paper if it is flat as paper is and goes over into it without a step,
/// while a pale fill ends at cells' sides. A mark that many cells have in one place counts however
/// faint it is; what single cells have in them may be dirt: those become doubtful, whichever they
/// are called. Where nothing is white, paper is what groundOf says, which looks `beside`.
void markBare(const cv::Mat& looks, std::span<const LookGrid> grids, Groups& groups,
              std::vector<GroupLook>& groupLooks, const BesideChart& beside = {});

} // namespace otherskein::trace::detail
