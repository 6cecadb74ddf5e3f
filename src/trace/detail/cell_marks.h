#pragma once

#include "trace/detail/groups.h"

#include <array>
#include <vector>

namespace otherskein::trace::detail {

/// Light and tints of a cell as a whole.
struct Level {
    float light = 0;
    float ground = 0; ///< of what is light in it: paper or fill beside a symbol
    std::array<float, 2> tint{};

    [[nodiscard]] float tintTo(const Level& other) const;
};
[[nodiscard]] Level levelOf(const float* look);

/// What stands out of a look's own level, less what stands out of paper's.
struct Mark {
    float peak = 0;   ///< of the middle, over 3 × 3 places
    float rim = 0;    ///< the same around the middle, where lines leave traces
    float framed = 0; ///< of the least dark of the four rims: an outline is dark at all
};
[[nodiscard]] Mark markOf(const float* look, const Level& level, const float* paper,
                          const Level& paperLevel);

/// How much a look's places of light count: those at the rim fade.
[[nodiscard]] const std::vector<float>& lookWeights();

/// Whether the mean look of many cells has an edge in its middle, as a sign has, however thin.
[[nodiscard]] bool hasEdge(const float* look);

/// Whether a mean of so many cells shows a sign: an edge, or in very many cells anything that
/// stands out by `peak`, since no dirt is left in their mean.
[[nodiscard]] bool isSignMean(const float* look, int cells, float peak);

} // namespace otherskein::trace::detail
