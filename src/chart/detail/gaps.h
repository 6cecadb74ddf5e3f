#pragma once

#include "chart/detail/joined.h"
#include "chart/detail/pieces.h"

#include <limits>

namespace otherskein::chart {

// The gap between two pieces is the number of bare stitches that a king crosses on his shortest
// walk from one to the other over bare ground. Where the bounds of the key are kept, only pieces of
// one row of the key have to do with each other; what is worked in another row stands in the way.

/// Joins pieces whose gap is at most `widest`, and so on from piece to piece. Linear in the cells
/// times the rows of the key that come within half of `widest` of one bare cell.
void joinAcrossGaps(const Grid& grid, const Pieces& pieces, KeyBounds keyBounds, int widest,
                    Joined& joined);

inline constexpr std::uint32_t kNoHome = std::numeric_limits<std::uint32_t>::max();

/// For each piece that is a crumb: the cell of a piece that is none which it goes to. Nearest
/// first (gap at most kCrumbReach), then the larger piece, then the cell that comes first in the
/// grid. kNoHome for other pieces, and for crumbs with nobody near. It does not depend on the
/// step, so that the steps stay nested.
[[nodiscard]] std::vector<std::uint32_t> crumbHomes(const Grid& grid, const Pieces& pieces,
                                                    KeyBounds keyBounds);

} // namespace otherskein::chart
