#pragma once

#include "chart/detail/pieces.h"

namespace otherskein::chart {

/// Labels of cells under work: any numbers below `next`, not all of them used; kNoMotif where bare.
struct Labels {
    std::vector<MotifIndex> of;
    MotifIndex next = 0;
};

/// Splits pieces where they are narrow: a neck parts two bodies when it is thinner than
/// `narrowerThan` times the thinner of the two, and by two stitches at least (by one, every
/// slanting bar has necks, since its edge goes in stairs). Bodies of fewer than `kLeastBody`
/// stitches are no bodies: frayed edges give none. A larger `narrowerThan` only splits further what
/// a smaller one splits.
///
/// How: the thickness of the piece at each cell; a watershed from its maxima down, level by level,
/// which gives basins and the level at which each first meets another; basins are joined again
/// where that level is not narrow. Level ground goes to the nearest basin, so a bridge is cut in
/// its middle; of two basins equally near, to the one whose cells come first in the grid.
[[nodiscard]] Labels splitAtNecks(const Grid& grid, const Pieces& pieces, double narrowerThan);

inline constexpr std::uint32_t kLeastBody = 9; ///< three by three (ours)

} // namespace otherskein::chart
