#include "colourway/solver.h"

#include "solver_problems.h"

#include <catch2/catch.hpp>

#include <numeric>
#include <set>

using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

constexpr std::uint64_t kSolverSeed = 20240913;
constexpr double kNever = std::numeric_limits<double>::infinity();

double total(const Problem& problem, const Assignment& assignment) {
    return costOf(problem, assignment).total();
}

std::size_t usedBy(const Assignment& assignment) {
    return std::set<std::size_t>(assignment.begin(), assignment.end()).size();
}

SolverOptions searchAlone(int rounds = 5) {
    SolverOptions options;
    options.mostNodes = 0;
    options.rounds = rounds;
    return options;
}

} // namespace

TEST_CASE("larger problems never end worse than the greedy start, by the clear evaluator") {
    Chance chance(kSolverSeed);
    int better = 0;
    for (unsigned terms = 0; terms < 32; ++terms) {
        CAPTURE(kSolverSeed, terms);
        const Problem problem = mixedProblem(chance, 40, 30, 0.2, terms);
        const double greedy = total(problem, greedyAssignment(problem));
        for (const SolverOptions& options : {searchAlone(0), searchAlone(3)}) {
            const Solution solution = solve(problem, options);
            REQUIRE(solution.assignment.size() == problem.parts);
            REQUIRE(solution.cost.total() <= greedy);
            REQUIRE(solution.cost == costOf(problem, solution.assignment));
        }
        better += solve(problem, searchAlone(3)).cost.total() < greedy ? 1 : 0;
    }
    CHECK(better > 16);
}

TEST_CASE("a seed gives one answer") {
    Chance chance(kSolverSeed);
    for (const unsigned terms : {0U, 12U, 18U}) {
        const Problem problem = mixedProblem(chance, 60, 40, 0.2, terms);
        SolverOptions options = searchAlone();
        const Solution once = solve(problem, options);
        const Solution again = solve(problem, options);
        CHECK(once.assignment == again.assignment);
        CHECK(once.cost == again.cost);
    }
}

TEST_CASE("locked parts keep their choice, and no part takes what it may not") {
    Chance chance(kSolverSeed);
    for (unsigned terms = 0; terms < 16; ++terms) {
        CAPTURE(kSolverSeed, terms);
        const Problem problem = mixedProblem(chance, 30, 20, 0.3, terms | Locks);
        for (const Assignment& assignment :
             {greedyAssignment(problem), solve(problem, searchAlone()).assignment}) {
            REQUIRE(std::isfinite(total(problem, assignment)));
        }
    }
}

TEST_CASE("mostChoices is kept where it can be, also where the cheap start would break it") {
    Chance chance(kSolverSeed);
    for (std::size_t most = 1; most <= 12; ++most) {
        CAPTURE(kSolverSeed, most);
        Problem problem = mixedProblem(chance, 40, 60, 0.2, Use);
        problem.mostChoices = most;
        CHECK(usedBy(greedyAssignment(problem)) <= most);
        const Solution solution = solve(problem, searchAlone());
        CHECK(usedBy(solution.assignment) <= most);
        CHECK(std::isfinite(solution.cost.total()));
    }
}

TEST_CASE("mostChoices is kept where taking the widest choice first would fail") {
    // Choice 2 suits four parts of six, but only 0 and 1 together suit all.
    Problem problem;
    problem.parts = 6;
    problem.choices = 5;
    problem.labs = {{20, 0, 0}, {35, 0, 0}, {50, 0, 0}, {65, 0, 0}, {80, 0, 0}};
    problem.size.assign(6, 1.0 / 6);
    problem.single.assign(30, kNever);
    for (const auto& [choice, parts] :
         std::vector<std::pair<std::size_t, std::vector<std::size_t>>>{
             {0, {0, 1, 2}}, {1, {3, 4, 5}}, {2, {1, 2, 3, 4}}, {3, {0}}, {4, {5}}}) {
        for (const std::size_t part : parts) {
            problem.single[part * 5 + choice] = choice < 2 ? 100 : 1;
        }
    }
    problem.mostChoices = 2;
    CHECK(greedyAssignment(problem) == Assignment{0, 0, 0, 1, 1, 1});
    const Solution solution = solve(problem);
    CHECK(solution.assignment == Assignment{0, 0, 0, 1, 1, 1});
    CHECK(solution.proved);
    problem.mostChoices = 1;
    CHECK(std::isinf(solve(problem).cost.total()));
}

TEST_CASE("progress rises from 0 to 1, and hearing it changes nothing") {
    Chance chance(kSolverSeed);
    for (const std::size_t parts : {std::size_t{9}, std::size_t{60}}) {
        const Problem problem = mixedProblem(chance, parts, 12, 0.4, Balance);
        std::vector<double> told;
        SolverOptions options;
        options.rounds = 10;
        options.mostNodes = 5000;
        const Solution silent = solve(problem, options);
        options.progress = [&](double share) {
            told.push_back(share);
            return true;
        };
        const Solution solution = solve(problem, options);
        CHECK_FALSE(solution.stopped);
        CHECK(solution.assignment == silent.assignment);
        REQUIRE(told.size() > 5);
        CHECK(std::ranges::is_sorted(told));
        CHECK(told.front() >= 0);
        CHECK(told.back() == 1);
        CHECK(std::ranges::count(told, 1.0) == 1);
    }
}

TEST_CASE("stopping at any word leaves a whole assignment, no worse than greedy") {
    Chance chance(kSolverSeed);
    const Problem problem = mixedProblem(chance, 12, 12, 0.5, Locks | Balance);
    const double greedy = total(problem, greedyAssignment(problem));
    int words = 0;
    SolverOptions options;
    options.rounds = 10;
    options.progress = [&](double) { return ++words > 0; };
    (void)solve(problem, options);
    const int all = words;
    REQUIRE(all > 10);
    for (int stopAt = 1; stopAt < all; ++stopAt) {
        CAPTURE(kSolverSeed, stopAt, all);
        words = 0;
        options.progress = [&](double) { return ++words < stopAt; };
        const Solution solution = solve(problem, options);
        REQUIRE(words == stopAt); // it stops at once
        REQUIRE(solution.stopped);
        REQUIRE_FALSE(solution.proved);
        REQUIRE(solution.assignment.size() == problem.parts);
        REQUIRE(solution.cost == costOf(problem, solution.assignment));
        REQUIRE(solution.cost.total() <= greedy);
    }
}

TEST_CASE("more for every choice of one part adds that much and moves no part") {
    Chance chance(kSolverSeed);
    for (unsigned terms = 0; terms < 32; ++terms) {
        CAPTURE(kSolverSeed, terms);
        const Problem problem = mixedProblem(chance, 6, 5, 0.6, terms & ~unsigned{Most});
        Problem dearer = problem;
        for (std::size_t c = 0; c < problem.choices; ++c) {
            dearer.single[2 * problem.choices + c] += 8;
        }
        const Solution solution = solve(problem);
        const Solution dear = solve(dearer);
        REQUIRE((solution.proved && dear.proved));
        REQUIRE(dear.assignment == solution.assignment);
        REQUIRE_THAT(dear.cost.total(), WithinAbs(solution.cost.total() + 8, 1e-9));
    }
}

TEST_CASE("the order in which parts and choices are listed does not change the least cost") {
    Chance chance(kSolverSeed);
    for (unsigned terms = 0; terms < 32; ++terms) {
        CAPTURE(kSolverSeed, terms);
        const Problem problem = mixedProblem(chance, 7, 6, 0.6, terms);
        // Both lists backwards; pairs as well, each seen from its other end.
        Problem turned = problem;
        std::ranges::reverse(turned.single);
        std::ranges::reverse(turned.labs);
        std::ranges::reverse(turned.size);
        std::ranges::reverse(turned.use);
        std::ranges::reverse(turned.pairs);
        for (PairTerm& pair : turned.pairs) {
            const std::size_t one = problem.parts - 1 - pair.one;
            pair.one = problem.parts - 1 - pair.other;
            pair.other = one;
            if (pair.lighterBy && *pair.lighterBy != 0) {
                pair.lighterBy = -*pair.lighterBy;
            } else if (pair.lighterBy) {
                std::swap(pair.one, pair.other); // 0 has no other sign: "no darker than"
            }
        }
        const double cost = solve(problem).cost.total();
        const double same = solve(turned).cost.total();
        if (std::isinf(cost)) {
            REQUIRE(std::isinf(same));
        } else {
            REQUIRE_THAT(same, WithinAbs(cost, 1e-9));
        }
    }
}

TEST_CASE("local search on more parts than swaps are tried for comes near a long run") {
    Chance chance(kSolverSeed);
    Problem problem = mixedProblem(chance, 100, 8, 0.05, Balance);
    const double usual = solve(problem, searchAlone(40)).cost.total();
    SolverOptions longer = searchAlone(400);
    longer.seed = 7;
    const double least = solve(problem, longer).cost.total();
    CAPTURE(usual, least);
    CHECK(usual <= 1.01 * least);
}
