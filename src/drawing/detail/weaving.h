#pragma once

#include "drawing/cloth.h"

#include <vector>

namespace otherskein::drawing::detail {

/// One fabric thread along the patch that a cloth repeats, sampled at the texels' middles. Lengths
/// in pitches: the distance between two threads if all were even.
struct FabricThread {
    std::vector<float> middle; ///< across
    std::vector<float> half;   ///< half its width
    std::vector<float> lift;   ///< of its middle over the middle of the cloth
    std::vector<float> tone;   ///< light that its fibres give back, about 1
};

/// Both systems of threads of a patch.
struct Weaving {
    int threads = 0;                ///< each way in the patch
    int texels = 0;                 ///< each way in the patch
    float crown = 0.30F;            ///< height of a thread of half a pitch above its middle
    float hole = 0.34F;             ///< light out of the gaps between threads
    float needle = 0;               ///< radius of the dark hole at the corners of cells, in cells
    std::vector<FabricThread> warp; ///< run down
    std::vector<FabricThread> weft; ///< run across
};

/// `texels` each way for the whole patch of `repeatOf(cloth)` cells.
[[nodiscard]] Weaving weavingOf(const Cloth& cloth, int texels);

} // namespace otherskein::drawing::detail
