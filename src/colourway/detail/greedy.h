#pragma once

#include "colourway/detail/pair_costs.h"

namespace otherskein::colourway {

/// `greedyAssignment` on pair costs that are laid out already, and go on to be used.
[[nodiscard]] Assignment greedyStart(const Problem& problem, PairCosts& pairs);

} // namespace otherskein::colourway
