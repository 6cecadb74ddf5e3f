#pragma once

#include "chart/motifs.h"

#include <vector>

namespace otherskein::chart {

/// The 8-connected pieces of a grid; a piece keeps to one row of the key where bounds are kept.
struct Pieces {
    std::vector<MotifIndex> of;       ///< per cell; kNoMotif where bare
    std::vector<std::uint32_t> sizes; ///< stitches of each piece
    std::vector<std::size_t> first;   ///< first cell of each, row by row
};
[[nodiscard]] Pieces findPieces(const Grid& grid, KeyBounds keyBounds);

} // namespace otherskein::chart
