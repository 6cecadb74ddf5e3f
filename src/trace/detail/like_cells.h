#pragma once

#include "trace/detail/sheet.h"

#include <vector>

namespace otherskein::trace::detail {

/// Cells whose middles look roughly alike; a line along a side does not reach there. Coarser or
/// finer than the chart's symbols; only for what many like cells tell of one.
struct LikeCells {
    int count = 0;
    std::vector<int> of;                   ///< of each cell
    std::vector<std::vector<int>> members; ///< cells of each kind
};

[[nodiscard]] LikeCells likeCellsOf(const Sheet& sheet);

} // namespace otherskein::trace::detail
