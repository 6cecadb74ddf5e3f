#pragma once

#include "colour/lab.h"

#include <span>

namespace otherskein::colour {

/// A colour and how much of the area (or how many of the strands) it covers.
struct Share {
    Lab lab;
    double weight = 1;
};

/// What the eye sees at stitching distance where several colours lie too fine to be told apart:
/// light adds, so XYZ is averaged by area (Murray-Davies for two colours). Errors: weights are not
/// negative and not all zero (asserted).
[[nodiscard]] Lab mixed(std::span<const Share> shares);

/// The same for two strands counts, as blends need it. `one` and `other` are XYZ of the two
/// threads.
[[nodiscard]] Xyz mixedXyz(const Xyz& one, int strandsOfOne, const Xyz& other, int strandsOfOther);

/// Murray-Davies: `coverage` (0..1) of the area shows the thread, the rest the ground.
[[nodiscard]] Lab apparentColour(const Lab& thread, const Lab& ground, double coverage);

} // namespace otherskein::colour
