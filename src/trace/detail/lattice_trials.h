#pragma once

#include "trace/detail/lattice_samples.h"

#include <optional>

namespace otherskein::trace::detail {

/// A lattice that was fitted to symbols rather than lines has as much half a cell from its lines as
/// at them; one that slipped by a line somewhere over its `cells` is told by how often the page
/// repeats there. Then others are tried, and taken where their lines stand out more. `cells` are
/// the new one's then. None where none is better.
[[nodiscard]] std::optional<Lattice> tried(const LineMaps& maps, const Lattice& lattice,
                                           cv::Rect& cells, bool mayHaveSlipped);

} // namespace otherskein::trace::detail
