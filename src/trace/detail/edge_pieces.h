#pragma once

#include "trace/detail/line_kinds.h"

#include <compare>
#include <set>

namespace otherskein::trace::detail {

/// A line along one side of a cell.
struct EdgePiece {
    bool isUpright = false;
    int line = 0;
    int place = 0;
    int kind = 0;

    auto operator<=>(const EdgePiece&) const = default;
};

/// The sides that lines of the kinds lie along. None of a kind that would be the grid's own, or
/// that is half there as often as it is there.
[[nodiscard]] std::set<EdgePiece> edgePieces(const Sheet& sheet, const EdgeLines& upright,
                                             const EdgeLines& level,
                                             const std::vector<LineKind>& kinds);

} // namespace otherskein::trace::detail
