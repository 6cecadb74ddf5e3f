#include "colourway/cost.h"

#include "colour/difference.h"
#include "colourway/detail/terms.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

namespace otherskein::colourway {

namespace {

bool isWeight(double number) {
    return std::isfinite(number) && number >= 0;
}

bool isConsistentPair(const PairTerm& pair, std::size_t parts) {
    return pair.one < parts && pair.other < parts && pair.one != pair.other &&
           isWeight(pair.weight) && std::isfinite(pair.least) && isWeight(pair.orderWeight) &&
           std::isfinite(pair.lighterBy.value_or(0));
}

} // namespace

double separationCost(const Problem& problem, const PairTerm& pair, std::size_t one,
                      std::size_t other) {
    if (pair.weight == 0) {
        return 0; // pairs of order alone need no ΔE00
    }
    const double de00 = colour::deltaE00(problem.labs[one], problem.labs[other]);
    const double lacks = std::max(0.0, pair.least - de00);
    return problem.weights.separation * pair.weight * lacks * lacks;
}

double orderCost(const Problem& problem, const PairTerm& pair, std::size_t one, std::size_t other) {
    if (!pair.lighterBy) {
        return 0;
    }
    const double lighterBy = *pair.lighterBy;
    const double higher = problem.labs[one].L - problem.labs[other].L;
    const double lacks = std::max(0.0, lighterBy >= 0 ? lighterBy - higher : higher - lighterBy);
    return problem.weights.order * pair.orderWeight * lacks * lacks;
}

CommonCost commonCost(const Problem& problem, std::span<const std::size_t> assignment) {
    std::vector<std::size_t> takers(problem.choices, 0);
    std::vector<double> shares(problem.choices, 0);
    for (std::size_t part = 0; part < assignment.size(); ++part) {
        ++takers[assignment[part]];
        shares[assignment[part]] += problem.size[part];
    }
    CommonCost cost;
    std::size_t used = 0;
    for (std::size_t choice = 0; choice < problem.choices; ++choice) {
        if (takers[choice] == 0) {
            continue;
        }
        ++used;
        if (!problem.use.empty()) {
            cost.use += problem.use[choice];
        }
        const double uneven = shares[choice] - 1.0 / static_cast<double>(problem.even);
        cost.balance += problem.balance * uneven * uneven;
        const auto sharers = static_cast<double>(takers[choice]);
        cost.sharing += problem.sharing * sharers * (sharers - 1) / 2;
    }
    if (used > problem.mostChoices) {
        cost.use = std::numeric_limits<double>::infinity();
    }
    return cost;
}

Cost costOf(const Problem& problem, std::span<const std::size_t> assignment) {
    assert(assignment.size() == problem.parts);
    assert(std::ranges::all_of(assignment, [&](std::size_t c) { return c < problem.choices; }));
    Cost cost;
    for (std::size_t part = 0; part < problem.parts; ++part) {
        cost.single += problem.single[part * problem.choices + assignment[part]];
    }
    for (const PairTerm& pair : problem.pairs) {
        const std::size_t one = assignment[pair.one];
        const std::size_t other = assignment[pair.other];
        cost.separation += separationCost(problem, pair, one, other);
        cost.order += orderCost(problem, pair, one, other);
    }
    const CommonCost common = commonCost(problem, assignment);
    cost.use = common.use;
    cost.balance = common.balance;
    cost.sharing = common.sharing;
    return cost;
}

bool Problem::isConsistent() const {
    const bool sizesAgree = single.size() == parts * choices && labs.size() == choices &&
                            size.size() == parts && (use.empty() || use.size() == choices);
    if (!sizesAgree || even == 0 || !isWeight(balance) || !isWeight(sharing) ||
        !isWeight(weights.separation) || !isWeight(weights.order) ||
        !std::ranges::all_of(size, isWeight) || !std::ranges::all_of(use, isWeight)) {
        return false;
    }
    std::set<std::pair<std::size_t, std::size_t>> ends;
    for (const PairTerm& pair : pairs) {
        if (!isConsistentPair(pair, parts) ||
            !ends.emplace(std::min(pair.one, pair.other), std::max(pair.one, pair.other)).second) {
            return false;
        }
    }
    for (std::size_t part = 0; part < parts; ++part) {
        const std::span<const double> row(single.data() + part * choices, choices);
        const auto isCost = [](double cost) {
            return std::isfinite(cost) || (std::isinf(cost) && cost > 0);
        };
        if (!std::ranges::all_of(row, isCost) ||
            std::ranges::none_of(row, [](double cost) { return std::isfinite(cost); })) {
            return false;
        }
    }
    return std::ranges::all_of(labs, [](const colour::Lab& lab) {
        return std::isfinite(lab.L) && std::isfinite(lab.a) && std::isfinite(lab.b);
    });
}

} // namespace otherskein::colourway
