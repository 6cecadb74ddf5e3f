#pragma once

#include "colourway/detail/pair_costs.h"

#include <functional>

namespace otherskein::colourway {

struct Bounded {
    Assignment assignment; ///< the best known: `known`, or a better one
    bool proved = false;
    bool stopped = false;
};

/// Looks for an assignment better than `known` (which must be finite in cost) and proves that there
/// is none, within `mostNodes`. `goOn` hears the share of the nodes that are used, and may stop.
///
/// Depth first over the free parts, the one with the fewest choices that can still win next. Bound
/// of a node: the parts not yet set each pay their least single cost (pair costs beside the set
/// parts included, and after SmallProblem::diffuse the better part of the pairs among themselves);
/// the price of using choices enters by dual ascent (Erlenkotter 1978, from memory): a part bids
/// what a choice would save it, as long as no choice gets bids above its price. `mostChoices` adds
/// to each price what makes the bound at the root largest, and takes it off for each choice allowed
/// (Lagrange). A hair of rounding apart, an answer that is proved is exact.
[[nodiscard]] Bounded branchAndBound(const Problem& problem, PairCosts& pairs, Assignment known,
                                     std::size_t mostNodes,
                                     const std::function<bool(double)>& goOn);

} // namespace otherskein::colourway
