#pragma once

#include "colourway/substitute.h"

namespace otherskein::colourway {

/// Limits of the warnings, in ΔE00 unless said. Ours (common practice, no source).
namespace warning_limits {
/// Two threads of one key closer than this are hard to tell apart once stitched.
inline constexpr double kSeparation = 5;
/// Where the chart's picture says that two threads never touch, they are mixed up only under this.
inline constexpr double kMixedUp = 2;
/// The two threads of a blend farther apart than this look speckled, not mixed.
inline constexpr double kSpeckled = 12;
/// Two threads are of one ramp when their hues differ by at most this many degrees, or both are
/// neutral.
inline constexpr double kRampHueDegrees = 25;
inline constexpr double kNeutralChroma = 6;
} // namespace warning_limits

/// What would annoy about this candidate, worst for the chart first.
[[nodiscard]] std::vector<Warning> warningsFor(const Candidate& candidate,
                                               const SubstituteQuestion& question);

} // namespace otherskein::colourway
