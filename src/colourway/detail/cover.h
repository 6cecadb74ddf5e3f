#pragma once

#include "colourway/cost.h"

#include <optional>

namespace otherskein::colourway {

/// At most `most` choices, besides the `given` ones, of which each part in `parts` may take one:
/// whether `mostChoices` can be kept. First greedily, then by trying all, within a bounded number
/// of steps (a minimum cover is hard in general, but charts are not): `certain` is false where
/// those ran out.
/// Of equally good steps the greedy one takes the choice that is cheapest for the parts it covers.
struct Cover {
    std::optional<std::vector<std::size_t>> choices;
    bool certain = true;
};
[[nodiscard]] Cover coverOf(const Problem& problem, std::vector<std::size_t> parts,
                            const std::vector<char>& given, std::size_t most);

/// The parts that have only one choice, and those that have more.
struct FreeParts {
    std::vector<std::size_t> fixed;
    std::vector<std::size_t> free;
};
[[nodiscard]] FreeParts freeParts(const Problem& problem);

[[nodiscard]] inline bool mayTake(const Problem& problem, std::size_t part, std::size_t choice) {
    return problem.single[part * problem.choices + choice] <
           std::numeric_limits<double>::infinity();
}

} // namespace otherskein::colourway
