#pragma once

#include <vector>

namespace otherskein::drawing::detail {

/// The texels that make a pixel, and their shares, which come to 1.
struct Sources {
    int first = 0; ///< may be -1; first + share.size() may be one past the end: drawn out, a pixel
                   ///< at the edge lies between two cells
    std::vector<float> share;
};

/// `texels` along a cell to `pixels`: the mean of those under each pixel where they are more,
/// between two where they are fewer.
[[nodiscard]] std::vector<Sources> sourcesOf(int texels, int pixels);

} // namespace otherskein::drawing::detail
