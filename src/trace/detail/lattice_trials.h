#pragma once

#include "trace/detail/lattice_fit.h"

namespace otherskein::trace::detail {

/// A lattice that was fitted to symbols rather than lines, or that slipped by a line somewhere, has
/// as much at half a cell from its lines as at them. Then lattices of up to `mostLines` more or
/// less over the same `cells`, or half a cell beside, are tried, and the one whose lines stand out
/// most is taken. `cells` are the new one's then. None where none is better.
[[nodiscard]] std::optional<Lattice> tried(const LineMaps& maps, const Lattice& lattice,
                                           cv::Rect& cells, int mostLines);

} // namespace otherskein::trace::detail
