#include "colourway/merging.h"

#include "colour/difference.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace otherskein::colourway {

std::vector<Merging> mergingPairs(std::span<const colour::Lab> colours,
                                  std::span<const chart::Neighbours> neighbours,
                                  const colour::Sight& sight) {
    std::vector<colour::Lab> seen;
    seen.reserve(colours.size());
    for (const colour::Lab& lab : colours) {
        seen.push_back(colour::seen(lab, sight));
    }
    std::vector<Merging> merging;
    for (const chart::Neighbours& pair : neighbours) {
        assert(pair.one < colours.size() && pair.other < colours.size());
        const double before = colour::deltaE00(colours[pair.one], colours[pair.other]);
        const double after = sight.kind == colour::Sight::Kind::Values
                                 ? std::abs(colours[pair.one].L - colours[pair.other].L)
                                 : colour::deltaE00(seen[pair.one], seen[pair.other]);
        if (before >= kToldApartFrom && after < kMergesBelow) {
            merging.push_back({pair.one, pair.other, pair.border + pair.facing, before, after});
        }
    }
    std::ranges::stable_sort(merging, [](const Merging& one, const Merging& other) {
        return one.touching > other.touching;
    });
    return merging;
}

} // namespace otherskein::colourway
