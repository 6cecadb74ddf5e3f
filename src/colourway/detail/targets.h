#pragma once

#include "colourway/recolour.h"

namespace otherskein::colourway {

/// The colour that a part should have, and how strictly.
struct Target {
    colour::Lab lab;
    /// Exact: by ΔE00. Family: by lightness first, then hue, then strength, so that a thread of the
    /// right value and family beats a nearer one of the wrong.
    enum class Kind { Exact, Family } kind = Kind::Exact;
};

/// How far `lab` misses the target; of the order of ΔE00 in both kinds.
[[nodiscard]] double missOf(const Target& target, const colour::Lab& lab);

/// Lab of a lightness, chroma and hue angle in degrees.
[[nodiscard]] colour::Lab labOf(double L, double chroma, double hueDegrees);

/// Black, white, grey and what is near them: no hue that a stitcher would name (ours).
[[nodiscard]] bool isNeutral(const colour::Lab& lab);

/// What each part of the subject should become under the question's theme. `variation` 0 is the
/// theme as asked; others move hue and strength a little, or much where the theme leaves it open.
[[nodiscard]] std::vector<Target>
targetsOf(const Subject& subject, const RecolourQuestion& question, std::uint64_t variation);

/// The same for colourways like `liked`.
[[nodiscard]] std::vector<Target> targetsLike(const std::vector<Choice>& liked,
                                              std::uint64_t variation);

} // namespace otherskein::colourway
