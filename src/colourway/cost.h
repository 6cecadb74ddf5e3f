#pragma once

#include "colour/lab.h"

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

namespace otherskein::colourway {

/// What the terms of the one cost weigh. All jobs use these; ours, found by looking at results (no
/// source). A cost has the unit of ΔE00² × stitches / all stitches, so it does not grow with the
/// size of the chart.
struct CostWeights {
    double fidelity = 1;   ///< × (difference from the wanted colour)²
    double separation = 4; ///< × (what a pair lacks of its least difference)², by length of border
    double order = 6;      ///< × (lightness by which a pair stands in the wrong order)²
    double ground = 3;     ///< × (what a part lacks of the floor on the ground)²
    double toBuy = 2;      ///< for each different thread that the user does not own
    double balance = 30;   ///< × (share of the stitches − even share)², summed over threads

    bool operator==(const CostWeights&) const = default;
};

/// Two parts that matter to each other. With `one` taking choice c and `other` choice d, it costs
///   weights.separation × weight × max(0, least − ΔE00(c, d))², and where order is asked for
///   weights.order × orderWeight × (what the two lack of their step of lightness)².
/// Neither is paid back for more than was asked: both are one-sided.
struct PairTerm {
    std::size_t one = 0; ///< one != other
    std::size_t other = 0;
    double weight = 0; ///< share of all borders, so that the weights of a problem add up to about 1
    double least = 0;  ///< ΔE00 that the two should keep
    /// Lightness that `one` should lie above `other` (negative: below); none where order is free.
    /// With higher = L of one − L of other, a pair lacks max(0, lighterBy − higher) where lighterBy
    /// is 0 or more, and max(0, higher − lighterBy) where it is negative. So 0 asks that `one` be
    /// no darker than `other`.
    std::optional<double> lighterBy;
    double orderWeight = 0;

    bool operator==(const PairTerm&) const = default;
};

/// Assign one choice to every part at least cost. Plain data; nothing of charts or threads is
/// known here, so that it can be held to exhaustive enumeration.
struct Problem {
    std::size_t parts = 0;
    std::size_t choices = 0;
    /// Cost of part p taking choice c, weights included: `single[p * choices + c]`. Infinity where
    /// it may not (a lock leaves one choice finite). Every part has a finite choice.
    std::vector<double> single;
    std::vector<PairTerm> pairs;   ///< at most one for two parts
    std::vector<colour::Lab> labs; ///< of the choices, for ΔE00 and order
    std::vector<double> size;      ///< of the parts: share of all stitches, adding up to 1
    /// Cost of using a choice at all (a thread to buy), once however many parts take it, never
    /// negative; empty: none.
    std::vector<double> use;
    /// Weight of Σ over used choices of (share − 1/even)²; 0: none. The share of a choice is the
    /// size of the parts that take it. A choice that no part takes costs nothing.
    double balance = 0;
    std::size_t even = 1; ///< how many choices the parts should share evenly
    std::size_t mostChoices = std::numeric_limits<std::size_t>::max(); ///< different ones in all
    /// Added for each pair of parts, touching or not, that share a choice (each row its own
    /// thread): n parts of one choice cost n(n − 1)/2 of it.
    double sharing = 0;
    CostWeights weights; ///< separation and order are applied to `pairs` by the evaluator

    /// For tests and asserts: sizes agree; numbers are finite, but for `single`, and only a single
    /// cost may be negative.
    [[nodiscard]] bool isConsistent() const;
};

/// The cost taken apart; `total` is what the solver lowers.
struct Cost {
    double single = 0; ///< fidelity and ground, as the job put them into `Problem::single`
    double separation = 0;
    double order = 0;
    double use = 0;
    double balance = 0;
    double sharing = 0;

    [[nodiscard]] double total() const {
        return single + separation + order + use + balance + sharing;
    }
    bool operator==(const Cost&) const = default;
};

/// One choice a part.
using Assignment = std::vector<std::size_t>;

/// The clear evaluator: reads like the formula, asks `colour::deltaE00` for every pair.
/// More different choices than `mostChoices` cost infinity (in `use`).
/// Shapes: one choice, below `problem.choices`, for each part (asserted).
[[nodiscard]] Cost costOf(const Problem& problem, std::span<const std::size_t> assignment);

} // namespace otherskein::colourway
