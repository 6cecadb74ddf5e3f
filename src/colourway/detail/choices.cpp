#include "colourway/detail/choices.h"

#include "colour/conversion.h"
#include "colour/mixing.h"
#include "colourway/coverage.h"
#include "colourway/substitute_warnings.h"
#include "thread/blends.h"
#include "thread/nearest.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace otherskein::colourway {

namespace {

constexpr std::size_t kBlendsEach = 6;

std::vector<std::size_t> nearestOf(const Target& target, const thread::ThreadPool& pool,
                                   std::size_t each) {
    std::vector<std::size_t> found;
    if (target.kind == Target::Kind::Exact) {
        for (const thread::Match& match : thread::nearestThreads(pool, target.lab, each)) {
            found.push_back(match.index);
        }
        return found;
    }
    std::vector<std::tuple<double, std::size_t, std::size_t>> misses;
    misses.reserve(pool.size());
    for (std::size_t i = 0; i < pool.size(); ++i) {
        misses.emplace_back(missOf(target, pool.labs()[i]), pool.rank(i), i);
    }
    const auto end = misses.begin() + static_cast<std::ptrdiff_t>(std::min(each, misses.size()));
    std::ranges::partial_sort(misses, end);
    for (auto one = misses.begin(); one != end; ++one) {
        found.push_back(std::get<2>(*one));
    }
    return found;
}

Choice ofThread(const thread::PooledThread& thread, int strands) {
    return {{{thread.card, thread.thread, strands}}, thread.thread.lab};
}

Choice ofBlend(const thread::ThreadPool& pool, const thread::BlendMatch& match) {
    const thread::PooledThread& one = pool[match.one];
    const thread::PooledThread& other = pool[match.other];
    return {{{one.card, one.thread, match.strandsOfOne},
             {other.card, other.thread, match.strandsOfOther}},
            colour::labFromXyz(
                colour::mixedXyz(one.xyz, match.strandsOfOne, other.xyz, match.strandsOfOther))};
}

} // namespace

std::vector<Choice> choicesNear(const std::vector<Target>& targets,
                                const RecolourQuestion& question, const thread::ThreadPool& pool,
                                std::size_t each) {
    std::set<std::pair<std::size_t, std::size_t>> threads; // by rank, so that the order is fixed
    for (const Target& target : targets) {
        for (const std::size_t index : nearestOf(target, pool, each)) {
            threads.emplace(pool.rank(index), index);
        }
    }
    std::vector<Choice> choices;
    for (const auto& [rank, index] : threads) {
        choices.push_back(ofThread(pool[index], question.strands));
    }
    if (question.blends && question.strands >= 2) {
        thread::BlendSearch search;
        search.most = kBlendsEach;
        search.strands = question.strands;
        search.mostApart = warning_limits::kSpeckled;
        std::set<std::tuple<std::size_t, std::size_t, int>> seen;
        for (const Target& target : targets) {
            for (const thread::BlendMatch& match : thread::bestBlends(pool, target.lab, search)) {
                if (seen.emplace(match.one, match.other, match.strandsOfOne).second) {
                    choices.push_back(ofBlend(pool, match));
                }
            }
        }
    }
    return choices;
}

std::vector<double> offGround(const std::vector<Choice>& choices,
                              const RecolourQuestion& question) {
    const double covered = coverage(question.ground, question.strands);
    std::vector<double> apart;
    apart.reserve(choices.size());
    for (const Choice& choice : choices) {
        apart.push_back(colour::deltaE00(
            colour::apparentColour(choice.lab, question.ground.lab, covered), question.ground.lab));
    }
    return apart;
}

std::vector<double> costsOfUse(const std::vector<Choice>& choices, const RecolourQuestion& question,
                               const CostWeights& weights) {
    if (!question.stashFirst) {
        return {};
    }
    std::vector<double> costs;
    for (const Choice& choice : choices) {
        const auto toBuy = std::ranges::count_if(
            choice.portions, [](const Choice::Portion& one) { return one.thread.stash <= 0; });
        costs.push_back(weights.toBuy * static_cast<double>(toBuy));
    }
    return costs;
}

std::size_t placeOf(std::vector<Choice>& choices, const Choice& choice) {
    const auto found =
        std::ranges::find_if(choices, [&](const Choice& one) { return one.isSameAs(choice); });
    const auto place = static_cast<std::size_t>(found - choices.begin());
    if (found == choices.end()) {
        choices.push_back(choice);
    }
    return place;
}

Choice inStrands(Choice choice, int strands) {
    if (choice.portions.size() == 1) {
        choice.portions.front().strands = strands;
    }
    return choice;
}

} // namespace otherskein::colourway
