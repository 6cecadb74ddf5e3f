#pragma once

#include "colourway/cost.h"

namespace otherskein::colourway {

/// The terms of the one cost, each as its formula in cost.h reads. `one` and `other` are the
/// choices that the two parts of `pair` take.
[[nodiscard]] double separationCost(const Problem& problem, const PairTerm& pair, std::size_t one,
                                    std::size_t other);
[[nodiscard]] double orderCost(const Problem& problem, const PairTerm& pair, std::size_t one,
                               std::size_t other);

/// What the whole assignment shares: use (infinite beyond `mostChoices`), balance and sharing.
struct CommonCost {
    double use = 0;
    double balance = 0;
    double sharing = 0;

    [[nodiscard]] double total() const { return use + balance + sharing; }
};
[[nodiscard]] CommonCost commonCost(const Problem& problem,
                                    std::span<const std::size_t> assignment);

} // namespace otherskein::colourway
