#pragma once

#include "drawing/cloth.h"

#include <vector>

namespace otherskein::drawing::detail {

/// Light from the upper left on a patch of woven cloth that repeats without a seam, without the
/// cloth's colour.
struct ClothSurface {
    int repeat = 1;           ///< cells each way
    int texels = 0;           ///< each way in a cell
    std::vector<float> shade; ///< row by row, its mean is 1
    /// The largest shade of the patch, then of the patch at half the size, a quarter …
    std::vector<float> brightest;

    [[nodiscard]] int side() const { return repeat * texels; }
    /// In a picture with cells of `pixels`; at least the true one.
    [[nodiscard]] float brightestAt(int pixels) const;
};

/// Made once a cloth (a few milliseconds) and kept; safe from any thread.
[[nodiscard]] const ClothSurface& clothSurface(const Cloth& cloth);

} // namespace otherskein::drawing::detail
