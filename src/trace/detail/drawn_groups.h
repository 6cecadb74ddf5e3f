#pragma once

#include "trace/detail/drawn_cells.h"
#include "trace/detail/groups.h"

#include <optional>

namespace otherskein::trace::detail {

struct DrawnGroups {
    Groups groups;
    std::vector<char> isPaper;  ///< of each group: white all over
    std::vector<char> isPlain;  ///< one colour all over: what has a sign is no bare ground
    std::vector<char> isSquare; ///< such a colour with white lines at its sides
};

/// Groups of cells that were drawn: the same symbol has the same pixels, whatever is not the same
/// is another. Cells that are `masked` (each cell's part of `masks`, 255 under a line) join by what
/// is seen of them. None where there are far too many kinds of cells: then the page was no
/// drawing, or something lies over it.
[[nodiscard]] std::optional<DrawnGroups> drawnGroupsOf(std::span<const Sheet> sheets,
                                                       const std::vector<char>& masked,
                                                       std::span<const cv::Mat> masks);

} // namespace otherskein::trace::detail
