#pragma once

#include "trace/detail/edge_profiles.h"

namespace otherskein::trace::detail {

/// How much of a side's length something along it covers: a line does from corner to corner, a
/// symbol that comes near the side does not.
struct SideCover {
    float first = 0; ///< share of the left or upper half
    float second = 0;

    [[nodiscard]] float all() const { return (first + second) / 2; }
};

inline constexpr float kCovered = 0.8F; ///< from which the whole side is

/// Where the page has more of `colour` than of what would be there without, at the excess's middle.
/// The side is the `place`-th of the `line`-th line.
[[nodiscard]] SideCover sideCover(const Sheet& sheet, bool isUpright, int line, int place,
                                  const EdgeExcess& excess, const cv::Vec3f& colour);

} // namespace otherskein::trace::detail
