#pragma once

#include "colourway/detail/targets.h"

namespace otherskein::colourway {

/// The choices that come near any of the targets: `each` threads a target, and a few calm blends
/// each where the question allows them. No choice twice; in a fixed order.
[[nodiscard]] std::vector<Choice> choicesNear(const std::vector<Target>& targets,
                                              const RecolourQuestion& question,
                                              const thread::ThreadPool& pool, std::size_t each);

/// ΔE00 of each choice's apparent colour against the ground.
[[nodiscard]] std::vector<double> offGround(const std::vector<Choice>& choices,
                                            const RecolourQuestion& question);

/// Cost of using each choice at all: what the user would have to buy for it.
[[nodiscard]] std::vector<double> costsOfUse(const std::vector<Choice>& choices,
                                             const RecolourQuestion& question,
                                             const CostWeights& weights);

/// The place of a choice that is the same as `choice`; added at the end when there is none.
std::size_t placeOf(std::vector<Choice>& choices, const Choice& choice);

/// `choice` worked with `strands` in the needle; blends keep theirs.
[[nodiscard]] Choice inStrands(Choice choice, int strands);

} // namespace otherskein::colourway
