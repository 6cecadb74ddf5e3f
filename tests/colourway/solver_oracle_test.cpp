// The solver against every assignment there is, asked of the clear evaluator.
#include "colourway/detail/branch_and_bound.h"
#include "colourway/solver.h"
#include "solver_problems.h"

#include <catch2/catch.hpp>

#include <array>

using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

constexpr std::uint64_t kSeed = 20240912;

struct Shape {
    std::size_t parts;
    std::size_t choices;
};
/// Up to about 4000 assignments each.
constexpr std::array<Shape, 8> kShapes{
    {{1, 9}, {2, 20}, {3, 12}, {4, 7}, {5, 5}, {6, 4}, {7, 3}, {10, 2}}};
constexpr unsigned kKinds = 32; // all sets of the other terms

double leastOfAll(const Problem& problem) {
    double least = std::numeric_limits<double>::infinity();
    Assignment assignment(problem.parts, 0);
    while (true) {
        least = std::min(least, costOf(problem, assignment).total());
        std::size_t part = 0;
        while (part < problem.parts && ++assignment[part] == problem.choices) {
            assignment[part++] = 0;
        }
        if (part == problem.parts) {
            return least;
        }
    }
}

bool isSame(double one, double other) {
    return one == other || std::abs(one - other) < 1e-9; // both may be infinite
}

} // namespace

TEST_CASE("small problems of every kind end proved, at the least cost there is") {
    CAPTURE(kSeed);
    Chance chance(kSeed);
    int infinite = 0;
    int notSearched = 0;
    int found = 0;
    int all = 0;
    double widest = 0;
    for (const Shape& shape : kShapes) {
        for (unsigned terms = 0; terms < 2 * kKinds; ++terms) {
            const Problem problem = mixedProblem(chance, shape.parts, shape.choices,
                                                 chance.between(0, 1), terms % kKinds);
            REQUIRE(problem.isConsistent());
            const double least = leastOfAll(problem);
            const Solution solution = solve(problem);
            CAPTURE(shape.parts, shape.choices, terms, least, solution.cost.total());
            REQUIRE(solution.proved);
            REQUIRE_FALSE(solution.stopped);
            REQUIRE(solution.cost == costOf(problem, solution.assignment));
            REQUIRE(isSame(solution.cost.total(), least));
            infinite += std::isinf(least) ? 1 : 0;
            // Branch and bound alone: from the greedy start, which local search has not mended.
            if (const Assignment start = greedyAssignment(problem);
                std::isfinite(costOf(problem, start).total())) {
                PairCosts pairs(problem);
                const Bounded bounded =
                    branchAndBound(problem, pairs, start, SolverOptions{}.mostNodes, {});
                REQUIRE(bounded.proved);
                REQUIRE(isSame(costOf(problem, bounded.assignment).total(), least));
            }

            SolverOptions searchAlone;
            searchAlone.mostNodes = 0;
            const double searched = solve(problem, searchAlone).cost.total();
            ++all;
            if (isSame(searched, least)) {
                ++found;
            } else {
                widest = std::max(widest, searched / least - 1);
            }
            notSearched += isSame(costOf(problem, greedyAssignment(problem)).total(), least);
        }
    }
    CAPTURE(all, found, widest, notSearched, infinite);
    CHECK(infinite > 0);               // some cannot keep mostChoices
    CHECK(notSearched * 10 < all * 9); // the problems are not so easy that greed solves them
    CHECK(found * 100 >= all * 98);    // local search alone
    CHECK(widest < 0.05);
}

TEST_CASE("problems of 8 parts of 8 choices end proved") {
    CAPTURE(kSeed);
    Chance chance(kSeed);
    for (unsigned terms = 0; terms < 5 * kKinds; ++terms) {
        const double density = terms / kKinds / 4.0;
        CAPTURE(terms % kKinds, density);
        REQUIRE(solve(mixedProblem(chance, 8, 8, density, terms % kKinds)).proved);
    }
}

TEST_CASE("one free part among many is always proved, and takes its cheapest choice") {
    Chance chance(kSeed);
    Problem problem = mixedProblem(chance, 30, 200, 0.5, Use | Balance | Sharing);
    for (std::size_t p = 1; p < problem.parts; ++p) {
        for (std::size_t c = 0; c < problem.choices; ++c) {
            if (c != 3 * p) {
                problem.single[p * problem.choices + c] = std::numeric_limits<double>::infinity();
            }
        }
    }
    const Solution solution = solve(problem);
    CHECK(solution.proved);
    const std::vector<double> costs = costsOfPart(problem, solution.assignment, 0);
    CHECK_THAT(solution.cost.total(), WithinAbs(*std::ranges::min_element(costs), 1e-9));
}

TEST_CASE("parts that have nothing to do with each other are always proved") {
    Chance chance(kSeed);
    const Problem problem = plainProblem(chance, 40, 300);
    const Solution solution = solve(problem);
    CHECK(solution.proved);
    double least = 0;
    for (std::size_t p = 0; p < problem.parts; ++p) {
        const auto row = problem.single.begin() + static_cast<std::ptrdiff_t>(p * problem.choices);
        least += *std::min_element(row, row + static_cast<std::ptrdiff_t>(problem.choices));
    }
    CHECK_THAT(solution.cost.total(), WithinAbs(least, 1e-9));
}

TEST_CASE("no parts at all are solved") {
    const Solution solution = solve(Problem{});
    CHECK(solution.assignment.empty());
    CHECK(solution.proved);
    CHECK(solution.cost.total() == 0);
}
