#pragma once

#include "chart/neighbours.h"
#include "colour/lab.h"
#include "colour/sight.h"

#include <span>
#include <vector>

namespace otherskein::colourway {

/// Two parts that touch, are told apart as they are, and no longer through other eyes.
struct Merging {
    std::size_t one = 0;
    std::size_t other = 0;
    double touching = 0; ///< length of their common border, in sides of cells, facing ones included
    double before = 0;   ///< ΔE00 as they are
    double after = 0;    ///< ΔE00 as seen; for values |ΔL*|

    bool operator==(const Merging&) const = default;
};

/// Limits, ours (common practice, no source): below 6 two shades side by side read as one from a
/// step away; from 9 on they are told apart.
inline constexpr double kMergesBelow = 6;
inline constexpr double kToldApartFrom = 9;

/// Longest border first; ties by the parts. Shapes: `colours[i]` is that of part i, thread or
/// apparent colour; `neighbours` name them.
[[nodiscard]] std::vector<Merging> mergingPairs(std::span<const colour::Lab> colours,
                                                std::span<const chart::Neighbours> neighbours,
                                                const colour::Sight& sight);

} // namespace otherskein::colourway
