#include "colourway/solver.h"

#include "colourway/detail/branch_and_bound.h"
#include "colourway/detail/cover.h"
#include "colourway/detail/greedy.h"
#include "colourway/detail/local_search.h"
#include "colourway/detail/terms.h"

#include <cassert>
#include <cmath>
#include <utility>

namespace otherskein::colourway {

namespace {

constexpr double kShareOfSearch = 0.7; ///< of the work, for the progress that is told

/// Keeps the better one by the clear evaluator, so that rounding in the fast ones decides nothing.
void keepBetter(const Problem& problem, Solution& solution, Assignment assignment) {
    const Cost cost = costOf(problem, assignment);
    if (cost.total() < solution.cost.total()) {
        solution.assignment = std::move(assignment);
        solution.cost = cost;
    }
}

} // namespace

Solution solve(const Problem& problem, const SolverOptions& options) {
    assert(problem.isConsistent());
    const auto finished = [&](Solution solution) {
        if (options.progress) {
            options.progress(1);
        }
        return solution;
    };
    PairCosts pairs(problem);
    Solution solution;
    solution.assignment = greedyStart(problem, pairs);
    solution.cost = costOf(problem, solution.assignment);
    if (std::isinf(solution.cost.total())) {
        const std::vector<char> none(problem.choices, 0);
        FreeParts parts = freeParts(problem);
        parts.free.insert(parts.free.end(), parts.fixed.begin(), parts.fixed.end());
        solution.proved = coverOf(problem, parts.free, none, problem.mostChoices).certain;
        return finished(std::move(solution));
    }

    Searched searched = searchLocally(problem, pairs, solution.assignment, options, kShareOfSearch);
    keepBetter(problem, solution, std::move(searched.assignment));
    solution.stopped = searched.stopped;
    if (solution.stopped) {
        return solution;
    }
    const auto goOn = [&](double share) {
        return !options.progress || options.progress(kShareOfSearch + (1 - kShareOfSearch) * share);
    };
    Bounded bounded = branchAndBound(problem, pairs, solution.assignment, options.mostNodes, goOn);
    keepBetter(problem, solution, std::move(bounded.assignment));
    solution.proved = bounded.proved;
    solution.stopped = bounded.stopped;
    return solution.stopped ? solution : finished(std::move(solution));
}

std::vector<double> costsOfPart(const Problem& problem, std::span<const std::size_t> assignment,
                                std::size_t part) {
    assert(assignment.size() == problem.parts && part < problem.parts);
    double others = 0; // what does not hang on the part
    for (std::size_t other = 0; other < problem.parts; ++other) {
        if (other != part) {
            others += problem.single[other * problem.choices + assignment[other]];
        }
    }
    std::vector<const PairTerm*> beside;
    for (const PairTerm& pair : problem.pairs) {
        if (pair.one == part || pair.other == part) {
            beside.push_back(&pair);
            continue;
        }
        const std::size_t one = assignment[pair.one];
        const std::size_t other = assignment[pair.other];
        others += separationCost(problem, pair, one, other) + orderCost(problem, pair, one, other);
    }
    std::vector<double> costs;
    Assignment changed(assignment.begin(), assignment.end());
    for (std::size_t choice = 0; choice < problem.choices; ++choice) {
        changed[part] = choice;
        double cost = others + problem.single[part * problem.choices + choice];
        for (const PairTerm* pair : beside) {
            const std::size_t one = changed[pair->one];
            const std::size_t other = changed[pair->other];
            cost +=
                separationCost(problem, *pair, one, other) + orderCost(problem, *pair, one, other);
        }
        costs.push_back(cost + commonCost(problem, changed).total());
    }
    return costs;
}

} // namespace otherskein::colourway
