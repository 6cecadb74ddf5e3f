// The solver on problems that look like real ones: time, the ratio to a plain descent that asks the
// clear evaluator for every move, and how far the default effort stays behind a long run.
// Started by scripts/bench only; the test run never times anything.
#include <catch2/catch.hpp>

#include "colour/difference.h"
#include "colourway/detail/chance.h"
#include "colourway/detail/running_cost.h"
#include "colourway/solver.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <numbers>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

/// In about the gamut of dyed fibre (ours: chroma shrinks towards black and white).
colour::Lab randomLab(Chance& chance) {
    const double L = chance.between(14, 95);
    const double C =
        70 * std::sqrt(chance.between(0, 1)) * (1 - std::pow(std::abs(L - 58) / 46, 2));
    const double h = chance.between(-std::numbers::pi, std::numbers::pi);
    return {L, C * std::cos(h), C * std::sin(h)};
}

struct Point {
    double x;
    double y;
};

double turn(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Neighbours as in a chart: parts lie as points in the plane; the shortest links that cross no
/// shorter one. Weights add up to 1.
std::vector<PairTerm> planarPairs(Chance& chance, std::size_t parts, std::size_t most) {
    std::vector<Point> points;
    for (std::size_t p = 0; p < parts; ++p) {
        points.push_back({chance.between(0, 1), chance.between(0, 1)});
    }
    struct Link {
        double length;
        std::size_t one;
        std::size_t other;
    };
    std::vector<Link> links;
    for (std::size_t one = 0; one < parts; ++one) {
        for (std::size_t other = one + 1; other < parts; ++other) {
            links.push_back(
                {std::hypot(points[one].x - points[other].x, points[one].y - points[other].y), one,
                 other});
        }
    }
    std::ranges::sort(links, {}, &Link::length);
    std::vector<PairTerm> pairs;
    double all = 0;
    for (const Link& link : links) {
        const bool crosses = std::ranges::any_of(pairs, [&](const PairTerm& pair) {
            if (pair.one == link.one || pair.one == link.other || pair.other == link.one ||
                pair.other == link.other) {
                return false;
            }
            const Point& a = points[link.one];
            const Point& b = points[link.other];
            const Point& c = points[pair.one];
            const Point& d = points[pair.other];
            return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
        });
        if (!crosses && pairs.size() < most) {
            pairs.push_back({link.one, link.other, chance.between(0.2, 1), 0, std::nullopt, 0});
            all += pairs.back().weight;
        }
    }
    for (PairTerm& pair : pairs) {
        pair.weight /= all;
    }
    return pairs;
}

void setSizes(Chance& chance, Problem& problem) {
    double all = 0;
    for (std::size_t p = 0; p < problem.parts; ++p) {
        problem.size.push_back(std::exp(chance.between(-2, 1)));
        all += problem.size.back();
    }
    for (double& size : problem.size) {
        size /= all;
    }
}

/// A key of `parts` rows onto another range of threads: keep what is told apart, and the order of
/// lightness of all rows.
Problem conversion(std::uint64_t seed, std::size_t parts, std::size_t choices) {
    Chance chance(seed);
    Problem problem;
    problem.parts = parts;
    problem.choices = choices;
    for (std::size_t c = 0; c < choices; ++c) {
        problem.labs.push_back(randomLab(chance));
    }
    setSizes(chance, problem);
    std::vector<colour::Lab> wanted;
    for (std::size_t p = 0; p < parts; ++p) {
        wanted.push_back(randomLab(chance));
        for (const colour::Lab& lab : problem.labs) {
            const double miss = colour::deltaE00(wanted.back(), lab);
            problem.single.push_back(problem.size[p] * miss * miss);
        }
    }
    problem.pairs = planarPairs(chance, parts, 5 * parts / 2);
    std::vector<char> touches(parts * parts, 0);
    for (PairTerm& pair : problem.pairs) {
        pair.least = std::min(20.0, colour::deltaE00(wanted[pair.one], wanted[pair.other]));
        touches[pair.one * parts + pair.other] = 1;
    }
    for (std::size_t one = 0; one < parts; ++one) {
        for (std::size_t other = one + 1; other < parts; ++other) {
            if (touches[one * parts + other] == 0) {
                problem.pairs.push_back({one, other, 0, 0, std::nullopt, 0});
            }
        }
    }
    for (PairTerm& pair : problem.pairs) {
        const double step = wanted[pair.one].L - wanted[pair.other].L;
        pair.lighterBy = std::copysign(std::min(0.5 * std::abs(step), 6.0), step);
        pair.orderWeight = 0.5 / static_cast<double>(problem.pairs.size()) + 0.5 * pair.weight;
    }
    return problem;
}

/// Motifs in a palette: neighbours apart, every colour about as much.
Problem motifs(std::uint64_t seed, std::size_t parts, std::size_t choices) {
    constexpr double kFloor = 22;
    constexpr double kNeighbours = 20;
    Chance chance(seed);
    Problem problem;
    problem.parts = parts;
    problem.choices = choices;
    setSizes(chance, problem);
    const colour::Lab ground{90, 1, 6};
    for (std::size_t c = 0; c < choices; ++c) {
        problem.labs.push_back(randomLab(chance));
    }
    for (std::size_t p = 0; p < parts; ++p) {
        for (const colour::Lab& lab : problem.labs) {
            const double lacks = std::max(0.0, 30 - colour::deltaE00(ground, lab));
            problem.single.push_back(problem.size[p] * problem.weights.ground * lacks * lacks);
        }
    }
    problem.pairs = planarPairs(chance, parts, 3 * parts);
    for (PairTerm& pair : problem.pairs) {
        pair.weight *= kNeighbours;
        pair.least = kFloor;
    }
    problem.balance = problem.weights.balance;
    problem.even = choices;
    problem.mostChoices = choices;
    return problem;
}

/// Of the processor, so that a busy machine does not count.
template <typename Work>
double milliseconds(int rounds, Work work) {
    double best = 1e300;
    for (int i = 0; i < rounds; ++i) {
        const std::clock_t start = std::clock();
        work();
        best = std::min(best, 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return best;
}

constexpr double kRounding = 1e-9;

/// The plain method: each part in turn takes its cheapest choice, until none moves; every choice is
/// asked of the clear evaluator.
Assignment plainDescent(const Problem& problem, Assignment now) {
    double cost = costOf(problem, now).total();
    for (bool moved = true; moved;) {
        moved = false;
        for (std::size_t p = 0; p < problem.parts; ++p) {
            const std::size_t before = now[p];
            std::size_t best = before;
            double least = cost - kRounding;
            for (std::size_t c = 0; c < problem.choices; ++c) {
                now[p] = c;
                if (const double with = costOf(problem, now).total(); with < least) {
                    least = with;
                    best = c;
                }
            }
            now[p] = best;
            if (best != before) {
                cost = least;
                moved = true;
            }
        }
    }
    return now;
}

/// The same moves on the running cost.
Assignment fastDescent(const Problem& problem, Assignment start) {
    PairCosts pairs(problem);
    RunningCost now(problem, pairs, std::move(start));
    for (bool moved = true; moved;) {
        moved = false;
        for (std::size_t p = 0; p < problem.parts; ++p) {
            const RunningCost::Move move = now.bestChange(p);
            if (move.rise < -kRounding) {
                now.change(p, move.choice);
                moved = true;
            }
        }
    }
    return now.assignment();
}

void compareDescents(const Problem& problem) {
    const Assignment start = greedyAssignment(problem);
    Assignment plain;
    Assignment fast;
    const double plainMs = milliseconds(1, [&] { plain = plainDescent(problem, start); });
    const double fastMs = milliseconds(5, [&] { fast = fastDescent(problem, start); });
    REQUIRE(fast == plain);
    std::printf("  the same descent: plain %8.0f ms   ours %7.2f ms   %6.0f x   cost %.4f\n",
                plainMs, fastMs, plainMs / fastMs, costOf(problem, fast).total());
}

void compareEfforts(const char* name, const Problem& problem) {
    constexpr int kLonger = 50;
    REQUIRE(problem.isConsistent());
    Solution solution;
    const double ms = milliseconds(3, [&] { solution = solve(problem); });
    SolverOptions options;
    options.rounds *= kLonger;
    options.seed = 2;
    const double longer = std::min(solution.cost.total(), solve(problem, options).cost.total());
    const double greedy = costOf(problem, greedyAssignment(problem)).total();
    std::printf("  %-34s %7.1f ms   cost %9.4f %s  greedy %9.4f   %dx rounds %9.4f  gap %.2f %%\n",
                name, ms, solution.cost.total(), solution.proved ? "proved" : "      ", greedy,
                kLonger, longer, 100 * (solution.cost.total() / longer - 1));
}

} // namespace

TEST_CASE("solver: a key of 40 rows onto 500 threads") {
    std::puts("\nSolver, 40 parts of 500 choices, 100 borders, all 780 in order (goal: 100 ms)");
    compareDescents(conversion(1, 40, 500));
    for (const std::uint64_t seed : {1U, 2U}) {
        Problem problem = conversion(seed, 40, 500);
        compareEfforts("separation and order", problem);
        problem.sharing = 1000;
        compareEfforts("each row its own thread", problem);
        problem.sharing = 0;
        problem.mostChoices = 12;
        compareEfforts("12 threads at most", problem);
        Chance chance(seed);
        for (std::size_t c = 0; c < problem.choices; ++c) {
            problem.use.push_back(chance.next() % 3 == 0 ? 0 : problem.weights.toBuy);
        }
        compareEfforts("12 threads at most, stash first", problem);
    }
}

TEST_CASE("solver: 300 motifs in 12 colours") {
    std::puts("\nSolver, 300 motifs of 12 choices, about 890 borders, balance (goal: 1000 ms)");
    compareDescents(motifs(1, 300, 12));
    for (const std::uint64_t seed : {1U, 2U}) {
        compareEfforts("motifs", motifs(seed, 300, 12));
    }
    std::puts("Solver, other sizes");
    compareEfforts("17 motifs of 8", motifs(4, 17, 8));
    compareEfforts("80 motifs of 12", motifs(5, 80, 12));
    compareEfforts("a key of 20 onto 60", conversion(6, 20, 60));
    compareEfforts("a key of 10 onto 40", conversion(7, 10, 40));
}
