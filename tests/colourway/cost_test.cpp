#include "colourway/cost.h"

#include "colour/difference.h"
#include "colourway/detail/running_cost.h"
#include "colourway/solver.h"
#include "solver_problems.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr std::uint64_t kSeed = 20240911;

/// Two parts, three greys of L 20, 50 and 60; nothing costs anything yet.
Problem greys() {
    Problem problem;
    problem.parts = 2;
    problem.choices = 3;
    problem.single.assign(6, 0);
    problem.labs = {{20, 0, 0}, {50, 0, 0}, {60, 0, 0}};
    problem.size = {0.75, 0.25};
    return problem;
}

Assignment randomAssignment(Chance& chance, const Problem& problem) {
    Assignment assignment;
    for (std::size_t p = 0; p < problem.parts; ++p) {
        std::size_t choice = below(chance, problem.choices);
        while (std::isinf(problem.single[p * problem.choices + choice])) {
            choice = below(chance, problem.choices);
        }
        assignment.push_back(choice);
    }
    return assignment;
}

} // namespace

TEST_CASE("single costs add up, and a choice that may not be costs infinity") {
    Problem problem = greys();
    problem.single = {1, 2, kNever, 4, 8, 16};
    CHECK(costOf(problem, Assignment{0, 2}).single == 17);
    CHECK(costOf(problem, Assignment{1, 0}).total() == 6);
    CHECK(costOf(problem, Assignment{2, 0}).total() == kNever);
}

TEST_CASE("a pair pays for the square of what it lacks of its least difference, and no more") {
    Problem problem = greys();
    problem.weights.separation = 3;
    problem.pairs = {{0, 1, 0.5, 12, std::nullopt, 0}};
    const double apart = colour::deltaE00(problem.labs[1], problem.labs[2]);
    REQUIRE(apart < 12);
    const Cost near = costOf(problem, Assignment{1, 2});
    CHECK_THAT(near.separation, WithinAbs(3 * 0.5 * (12 - apart) * (12 - apart), 1e-12));
    CHECK(near.total() == near.separation);
    CHECK_THAT(costOf(problem, Assignment{1, 1}).separation, WithinAbs(3 * 0.5 * 144, 1e-12));
    CHECK(costOf(problem, Assignment{0, 2}).separation == 0);
}

TEST_CASE("order is one-sided: being lighter by more than was asked costs nothing") {
    Problem problem = greys();
    problem.weights.order = 2;
    const auto order = [&](std::optional<double> lighterBy, std::size_t one, std::size_t other) {
        problem.pairs = {{0, 1, 0, 0, lighterBy, 0.25}};
        return costOf(problem, Assignment{one, other}).order;
    };
    SECTION("positive: the first is to be the lighter one") {
        CHECK_THAT(order(15, 2, 1), WithinAbs(2 * 0.25 * 25, 1e-12)); // 10 of 15
        CHECK_THAT(order(15, 1, 2), WithinAbs(2 * 0.25 * 625, 1e-12));
        CHECK(order(15, 2, 0) == 0);
    }
    SECTION("negative: the second is") {
        CHECK_THAT(order(-15, 1, 2), WithinAbs(2 * 0.25 * 25, 1e-12));
        CHECK_THAT(order(-15, 2, 1), WithinAbs(2 * 0.25 * 625, 1e-12));
        CHECK(order(-15, 0, 2) == 0);
    }
    SECTION("zero: the first is not to be darker") {
        CHECK(order(0, 1, 1) == 0);
        CHECK(order(0, 2, 1) == 0);
        CHECK_THAT(order(0, 1, 2), WithinAbs(2 * 0.25 * 100, 1e-12));
    }
    SECTION("none: free") {
        CHECK(order(std::nullopt, 0, 2) == 0);
    }
}

TEST_CASE("a choice is paid for once, however many parts take it") {
    Problem problem = greys();
    problem.use = {1, 10, 100};
    CHECK(costOf(problem, Assignment{1, 1}).use == 10);
    CHECK(costOf(problem, Assignment{2, 0}).use == 101);
}

TEST_CASE("more different choices than the most cost infinity") {
    Problem problem = greys();
    problem.mostChoices = 1;
    CHECK(costOf(problem, Assignment{1, 1}).total() == 0);
    CHECK(costOf(problem, Assignment{1, 2}).use == kNever);
}

TEST_CASE("balance counts the shares of used choices against the even share") {
    Problem problem = greys();
    problem.balance = 8;
    problem.even = 2;
    CHECK_THAT(costOf(problem, Assignment{0, 1}).balance, WithinAbs(8 * 2 * 0.0625, 1e-12));
    CHECK_THAT(costOf(problem, Assignment{0, 0}).balance, WithinAbs(8 * 0.25, 1e-12));
}

TEST_CASE("sharing is paid for each pair of parts that take one choice, touching or not") {
    Problem problem;
    problem.parts = 5;
    problem.choices = 2;
    problem.single.assign(10, 0);
    problem.labs = {{20, 0, 0}, {50, 0, 0}};
    problem.size.assign(5, 0.2);
    problem.sharing = 7;
    CHECK(costOf(problem, Assignment{0, 0, 0, 0, 1}).sharing == 42);
    CHECK(costOf(problem, Assignment{0, 0, 0, 1, 1}).sharing == 28);
}

TEST_CASE("a problem that contradicts itself is told") {
    const Problem good = greys();
    REQUIRE(good.isConsistent());
    Problem bad = good;
    SECTION("sizes") {
        bad.single.pop_back();
    }
    SECTION("a part with no choice") {
        bad.single = {kNever, kNever, kNever, 0, 0, 0};
    }
    SECTION("a single cost that is no number") {
        bad.single[0] = std::numeric_limits<double>::quiet_NaN();
    }
    SECTION("a pair with itself") {
        bad.pairs = {{1, 1, 1, 1, std::nullopt, 0}};
    }
    SECTION("a pair twice") {
        bad.pairs = {{0, 1, 1, 1, std::nullopt, 0}, {1, 0, 1, 1, std::nullopt, 0}};
    }
    SECTION("a negative price") {
        bad.use = {0, -1, 0};
    }
    CHECK_FALSE(bad.isConsistent());
}

TEST_CASE("what each choice would cost is what the clear evaluator says of it") {
    CAPTURE(kSeed);
    Chance chance(kSeed);
    for (unsigned round = 0; round < 160; ++round) {
        const Problem problem =
            mixedProblem(chance, 1 + below(chance, 8), 2 + below(chance, 9), 0.6, round % 32);
        Assignment assignment = randomAssignment(chance, problem);
        const std::size_t part = below(chance, problem.parts);
        const std::vector<double> costs = costsOfPart(problem, assignment, part);
        REQUIRE(costs.size() == problem.choices);
        for (std::size_t c = 0; c < problem.choices; ++c) {
            CAPTURE(round, part, c);
            assignment[part] = c;
            const double cost = costOf(problem, assignment).total();
            if (std::isinf(cost)) {
                REQUIRE(costs[c] == cost);
            } else {
                REQUIRE_THAT(costs[c], WithinAbs(cost, 1e-9));
            }
        }
    }
}

TEST_CASE("the running cost keeps to the clear evaluator through every kind of move") {
    CAPTURE(kSeed);
    Chance chance(kSeed);
    int moves = 0;
    for (unsigned round = 0; round < 96; ++round) {
        const Problem problem = mixedProblem(chance, 2 + below(chance, 9), 2 + below(chance, 9),
                                             chance.between(0, 1), round % 32);
        const Assignment start = randomAssignment(chance, problem);
        if (std::isinf(costOf(problem, start).total())) {
            continue;
        }
        PairCosts pairs(problem);
        RunningCost now(problem, pairs, start);
        REQUIRE_THAT(now.total(), WithinAbs(costOf(problem, start).total(), 1e-9));
        for (int step = 0; step < 60; ++step) {
            Assignment next = now.assignment();
            const std::size_t kind = below(chance, 4);
            const std::size_t part = below(chance, problem.parts);
            const std::size_t other = below(chance, problem.parts);
            const std::size_t choice = below(chance, problem.choices);
            const std::size_t from = next[part];
            double rise = 0;
            now.mark();
            if (kind == 0) {
                next[part] = choice;
                rise = now.ofChange(part, choice);
            } else if (kind == 1) {
                std::swap(next[part], next[other]);
                rise = now.ofSwap(part, other);
            } else if (kind == 2) {
                for (std::size_t p = 0; p < problem.parts && choice != from; ++p) {
                    if (next[p] == from &&
                        std::isfinite(problem.single[p * problem.choices + choice])) {
                        next[p] = choice;
                    }
                }
                rise = next == now.assignment() ? 0 : now.ofReplacement(from, choice);
            } else {
                const RunningCost::Move move = now.bestChange(part);
                const std::vector<double> costs = costsOfPart(problem, next, part);
                REQUIRE_THAT(costs[move.choice], WithinAbs(*std::ranges::min_element(costs), 1e-9));
                next[part] = move.choice;
                rise = move.rise;
            }
            const double before = costOf(problem, now.assignment()).total();
            const double after = costOf(problem, next).total();
            CAPTURE(round, step, kind, part, other, choice);
            if (std::isinf(after)) {
                REQUIRE(std::isinf(rise));
                continue;
            }
            REQUIRE_THAT(rise, WithinAbs(after - before, 1e-9));
            if (next == now.assignment()) {
                continue;
            }
            if (kind == 1) {
                now.swap(part, other);
            } else if (kind == 2) {
                now.replace(from, choice);
            } else {
                now.change(part, next[part]);
            }
            ++moves;
            REQUIRE(now.assignment() == next);
            REQUIRE_THAT(now.total(), WithinAbs(after, 1e-9));
            if (below(chance, 3) == 0) {
                now.backToMark();
                REQUIRE_THAT(now.total(), WithinAbs(before, 1e-9));
            }
        }
    }
    CHECK(moves > 1000);
}
