#pragma once

#include "chart/neighbours.h"
#include "colourway/cost.h"

#include <span>

namespace otherskein::colourway {

/// Ours, found by looking at results (no source).
namespace keeping {
/// Two touching rows keep what told them apart, up to this ΔE00: more needs no keeping.
inline constexpr double kSeparation = 20;
/// Of a step of lightness, the share and the L* that order insists on; fidelity sees to the rest.
inline constexpr double kStepShare = 0.5;
inline constexpr double kStepMost = 6;
/// Rows this far apart in the order of lightness leave their order to the rows between them.
inline constexpr std::size_t kReach = 20;
} // namespace keeping

/// The pairs of a chart whose rows are charted in `labs`, worded so that rows which touch keep what
/// tells them apart, and all keep their order of lightness. `neighbours` holds indices into `labs`;
/// a pair may stand there more than once, or with itself, which says nothing.
[[nodiscard]] std::vector<PairTerm> pairsKept(std::span<const colour::Lab> labs,
                                              std::span<const chart::Neighbours> neighbours);

} // namespace otherskein::colourway
