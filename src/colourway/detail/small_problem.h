#pragma once

#include "colourway/detail/cover.h"
#include "colourway/detail/pair_costs.h"

#include <optional>

namespace otherskein::colourway {

/// The free parts of a problem as plain tables for branch and bound: everything but the price of
/// using a choice at all, and `mostChoices`, is a cost of one part or of two. Sharing costs where
/// two parts take one choice; so does balance, since
///   Σ over used (share − e)² = Σ sizes² − 2e Σ sizes + Σ of 2·size·size over sharing pairs
///                              + e² · used.
/// Constants are left out, so costs compare among themselves only. What parts with one choice add
/// stands in the singles.
struct SmallProblem {
    std::vector<std::size_t> parts;                ///< numbers in the problem
    std::vector<std::vector<std::size_t>> options; ///< of each part: choices that it may take
    std::vector<std::vector<double>> single;       ///< by part and option
    /// By part and other part: cost by option of the part, then of the other; empty where the two
    /// do not matter to each other. Both ways stand here.
    std::vector<std::vector<double>> pair;
    std::vector<double> fee; ///< of each choice: for being the first to use it
    /// Of each choice: 1 where a part with one choice uses it already.
    std::vector<char> used;
    std::size_t mostNew = 0; ///< further choices that may be used

    [[nodiscard]] const std::vector<double>& between(std::size_t part, std::size_t other) const {
        return pair[part * parts.size() + other];
    }
    [[nodiscard]] std::vector<double>& between(std::size_t part, std::size_t other) {
        return pair[part * parts.size() + other];
    }

    /// Moves cost from the pairs into the singles as far as that goes (the total of no assignment
    /// changes), so that the sum of each part's least single bounds the total well. Pairs stay 0 or
    /// more. Diffusion after Globerson & Jaakkola 2007 ("MPLP"), from memory: each pair in turn
    /// collects what its two parts have and hands half of its least costs back to each; no step
    /// lowers the bound.
    void diffuse(std::size_t mostSweeps);
};

/// None where the tables would hold more than `mostEntries`.
[[nodiscard]] std::optional<SmallProblem> smallProblem(const Problem& problem, PairCosts& pairs,
                                                       std::size_t mostEntries);

} // namespace otherskein::colourway
