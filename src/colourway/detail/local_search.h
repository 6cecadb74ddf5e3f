#pragma once

#include "colourway/detail/pair_costs.h"
#include "colourway/solver.h"

namespace otherskein::colourway {

struct Searched {
    Assignment assignment;
    bool stopped = false;
};

/// Iterated local search from `start`, which must be finite in cost: descends by changing one part,
/// swapping two, or replacing a choice by another for all that take it; then rounds of kicks. A
/// kick disturbs a part and a few of its neighbours, swaps two parts, or gives up one choice and
/// opens another where choices have a price or are scarce; it descends around them and is taken
/// back where that led upwards. Never worse than `start`. `options.progress` hears shares up to
/// `share`.
[[nodiscard]] Searched searchLocally(const Problem& problem, PairCosts& pairs, Assignment start,
                                     const SolverOptions& options, double share);

} // namespace otherskein::colourway
