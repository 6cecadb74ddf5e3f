#include "colourway/detail/pairs_kept.h"

#include "colour/difference.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace otherskein::colourway {

std::vector<PairTerm> pairsKept(std::span<const colour::Lab> labs,
                                std::span<const chart::Neighbours> neighbours) {
    std::map<std::pair<std::size_t, std::size_t>, PairTerm> pairs;
    const auto pairOf = [&](std::size_t one, std::size_t other) -> PairTerm& {
        const std::pair<std::size_t, std::size_t> ends = std::minmax(one, other);
        PairTerm& pair = pairs[ends];
        std::tie(pair.one, pair.other) = ends;
        return pair;
    };

    double borders = 0;
    for (const chart::Neighbours& pair : neighbours) {
        if (pair.one != pair.other) {
            pairOf(pair.one, pair.other).weight += pair.border + pair.facing;
            borders += pair.border + pair.facing;
        }
    }
    for (auto& [ends, pair] : pairs) {
        pair.weight /= borders;
        pair.least =
            std::min(keeping::kSeparation, colour::deltaE00(labs[pair.one], labs[pair.other]));
    }

    std::vector<std::size_t> byLightness(labs.size());
    std::iota(byLightness.begin(), byLightness.end(), std::size_t{0});
    std::ranges::stable_sort(byLightness, {}, [&](std::size_t row) { return labs[row].L; });
    std::vector<PairTerm*> ordered;
    for (std::size_t i = 0; i < byLightness.size(); ++i) {
        for (std::size_t j = i + 1; j < std::min(i + keeping::kReach, byLightness.size()); ++j) {
            PairTerm& pair = pairOf(byLightness[i], byLightness[j]);
            const double step = labs[pair.one].L - labs[pair.other].L;
            if (std::abs(step) >= 1) {
                pair.lighterBy = std::copysign(
                    std::min(keeping::kStepShare * std::abs(step), keeping::kStepMost), step);
                ordered.push_back(&pair);
            }
        }
    }
    for (PairTerm* pair : ordered) {
        // Half by the pair itself, half by how long the two touch: a ramp is seen where it runs.
        pair->orderWeight = 0.5 / static_cast<double>(ordered.size()) + 0.5 * pair->weight;
    }
    std::vector<PairTerm> kept;
    for (const auto& [ends, pair] : pairs) {
        if (pair.weight > 0 || pair.lighterBy) {
            kept.push_back(pair);
        }
    }
    return kept;
}

} // namespace otherskein::colourway
