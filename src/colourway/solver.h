#pragma once

#include "colourway/cost.h"

#include <cstdint>
#include <functional>

namespace otherskein::colourway {

struct SolverOptions {
    std::uint64_t seed = 1;
    /// Effort of local search: rounds of disturbing the best answer and descending again. The same
    /// seed and rounds give the same answer on every machine; no clock is asked.
    int rounds = 40;
    /// Nodes that branch and bound may visit before local search's answer stands unproved; a node
    /// of a large problem counts for several. 0: local search alone.
    std::size_t mostNodes = 200'000;
    /// Told the share that is done, 0..1, never falling, now and then; answering false stops. 1 is
    /// told once, at the end, when there is nothing left to stop. May be empty.
    std::function<bool(double)> progress;
};

struct Solution {
    Assignment assignment;
    Cost cost;            ///< by the clear evaluator
    bool proved = false;  ///< no assignment costs less
    bool stopped = false; ///< the best so far, which is still a whole and valid assignment
};

/// The one solver of the program: every job is a Problem.
/// Exact by branch and bound where that ends within `mostNodes` (all problems with up to about 8
/// parts of 8 choices, and all with one free part); else seeded local search from a greedy start,
/// never worse than the greedy start. Deterministic for a seed.
/// Errors: none; the problem is consistent (asserted). When no assignment keeps `mostChoices`, the
/// one answered has infinite cost.
[[nodiscard]] Solution solve(const Problem& problem, const SolverOptions& options = {});

/// The greedy start alone: parts with one choice first, then by size, largest first, each taking
/// what is cheapest beside those already set. Keeps `mostChoices` where that can be kept. The plain
/// method that tests and benchmarks compare with.
[[nodiscard]] Assignment greedyAssignment(const Problem& problem);

/// What each choice would cost in all with every other part as `assignment` has it; infinity where
/// it may not. How candidates for one part are ranked inside a chart.
[[nodiscard]] std::vector<double>
costsOfPart(const Problem& problem, std::span<const std::size_t> assignment, std::size_t part);

} // namespace otherskein::colourway
