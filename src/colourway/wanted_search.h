#pragma once

#include "colourway/substitute.h"

namespace otherskein::colourway {

/// Threads that a half-typed text may mean, best first: the code itself, then codes that begin so,
/// then names with a word that begins so, then codes and names that contain it; within each, by
/// card, then code in natural order (MS-21 before MS-100). Upper and lower case are one. At most
/// `most`.
[[nodiscard]] std::vector<Wanted> threadsMeant(const std::vector<thread::ShadeCard>& cards,
                                               const QString& text, std::size_t most);

/// A bare colour as the wanted one.
[[nodiscard]] Wanted wantedColour(const colour::Srgb8& srgb);

/// What the user may have typed: `#rrggbb` is a colour, else the first thread meant; empty when
/// neither.
[[nodiscard]] std::optional<Wanted> wantedMeant(const std::vector<thread::ShadeCard>& cards,
                                                const QString& text);

} // namespace otherskein::colourway
