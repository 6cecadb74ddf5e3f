#pragma once

// The colourway folder: choosing threads for the parts of a chart and judging the choice:
// substitutes, what shows on a ground, how much thread it takes. Knows charts and threads; no
// store, no widgets.

#include "thread/ground.h"

namespace otherskein::colourway {

/// How wide one ply of six-strand cotton lies when stitched, mm (common practice, from memory; the
/// user may set it).
inline constexpr double kPlyWidthMm = 0.40;

/// Share (0..1) of a cell's area that a full cross covers, from geometry.
///
/// Each leg is a band √2·n·w wide along the cell's sides; bare ground is left in the square that
/// both legs miss: 1 - max(0, 1 - √2·n·w/s)², with s = 25.4·over/count mm. Checks: 14 over 1, 2
/// strands 0.858; 36 over 2, 2 strands 0.961; 36 over 2, 1 strand 0.641.
[[nodiscard]] double coverage(const thread::Ground& ground, int strands,
                              double plyWidthMm = kPlyWidthMm);

} // namespace otherskein::colourway
