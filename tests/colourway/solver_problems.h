#pragma once

// Random problems for the solver, the same on every machine.

#include "colourway/cost.h"
#include "colourway/detail/chance.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace otherskein::colourway {

inline std::size_t below(Chance& chance, std::size_t end) {
    return static_cast<std::size_t>(chance.next() % end);
}

/// In about the gamut of dyed fibre (ours: chroma shrinks towards black and white).
inline colour::Lab randomLab(Chance& chance) {
    const double L = chance.between(14, 95);
    const double C =
        70 * std::sqrt(chance.between(0, 1)) * (1 - std::pow(std::abs(L - 58) / 46, 2));
    const double h = chance.between(-std::numbers::pi, std::numbers::pi);
    return {L, C * std::cos(h), C * std::sin(h)};
}

/// Sizes and labs; each part wants a colour of its own: size × (distance in Lab)².
inline Problem plainProblem(Chance& chance, std::size_t parts, std::size_t choices) {
    Problem problem;
    problem.parts = parts;
    problem.choices = choices;
    for (std::size_t c = 0; c < choices; ++c) {
        problem.labs.push_back(randomLab(chance));
    }
    double all = 0;
    for (std::size_t p = 0; p < parts; ++p) {
        problem.size.push_back(std::exp(chance.between(-2, 1)));
        all += problem.size.back();
    }
    for (std::size_t p = 0; p < parts; ++p) {
        problem.size[p] /= all;
        const colour::Lab wanted = randomLab(chance);
        for (const colour::Lab& lab : problem.labs) {
            const double miss = 0.5 * std::hypot(lab.L - wanted.L, lab.a - wanted.a,
                                                 lab.b - wanted.b); // about ΔE00 for large steps
            problem.single.push_back(problem.size[p] * miss * miss);
        }
    }
    return problem;
}

/// Pairs with about this chance each: separation, order, or both.
inline void addRandomPairs(Chance& chance, Problem& problem, double density) {
    for (std::size_t one = 0; one < problem.parts; ++one) {
        for (std::size_t other = one + 1; other < problem.parts; ++other) {
            if (chance.between(0, 1) >= density) {
                continue;
            }
            PairTerm pair;
            pair.one = one;
            pair.other = other;
            if (below(chance, 2) == 0) {
                std::swap(pair.one, pair.other);
            }
            const std::size_t kind = below(chance, 3);
            if (kind != 0) {
                pair.weight = chance.between(0, 2) / static_cast<double>(problem.parts);
                pair.least = chance.between(0, 30);
            }
            if (kind != 1) {
                pair.lighterBy = below(chance, 8) == 0 ? 0 : chance.between(-12, 12);
                pair.orderWeight = chance.between(0, 2) / static_cast<double>(problem.parts);
            }
            problem.pairs.push_back(pair);
        }
    }
}

/// Leaves one choice to about one part in four, and forbids about a quarter of the others'.
inline void addRandomLocks(Chance& chance, Problem& problem) {
    for (std::size_t p = 0; p < problem.parts; ++p) {
        const std::size_t kept = below(chance, problem.choices);
        const bool isLocked = below(chance, 4) == 0;
        for (std::size_t c = 0; c < problem.choices; ++c) {
            if (c != kept && (isLocked || below(chance, 4) == 0)) {
                problem.single[p * problem.choices + c] = std::numeric_limits<double>::infinity();
            }
        }
    }
}

/// Each of the other terms, by a bit of `terms`.
enum Term : unsigned { Locks = 1, Use = 2, Balance = 4, Sharing = 8, Most = 16 };

inline Problem mixedProblem(Chance& chance, std::size_t parts, std::size_t choices, double density,
                            unsigned terms) {
    Problem problem = plainProblem(chance, parts, choices);
    addRandomPairs(chance, problem, density);
    if ((terms & Locks) != 0) {
        addRandomLocks(chance, problem);
    }
    for (std::size_t c = 0; c < choices && (terms & Use) != 0; ++c) {
        problem.use.push_back(below(chance, 3) == 0 ? 0 : chance.between(0, 40));
    }
    if ((terms & Balance) != 0) {
        problem.balance = chance.between(1, 400);
        problem.even = 1 + below(chance, choices);
    }
    if ((terms & Sharing) != 0) {
        problem.sharing = below(chance, 2) == 0 ? 1000 : chance.between(0, 30);
    }
    if ((terms & Most) != 0) {
        problem.mostChoices = 1 + below(chance, choices);
    }
    return problem;
}

} // namespace otherskein::colourway
