#pragma once

// The colourway folder: choosing threads for the parts of a chart and judging the choice:
// substitutes, what shows on a ground, how much thread it takes. Knows charts and threads; no
// store, no widgets.

#include "thread/ground.h"
#include "thread/thread.h"

#include <map>
#include <optional>

namespace otherskein::colourway {

/// How wide one ply of six-strand cotton lies when stitched, mm (common practice, from memory; the
/// user may set it).
inline constexpr double kPlyWidthMm = 0.40;

/// How wide one strand lies when stitched, by fibre. What the user has measured stands before what
/// we take for usual.
struct PlyWidths {
    std::map<QString, double> measuredMm; ///< by fibre in lower case, kLeast.. to kMostPlyWidthMm

    /// Of a thread: measured for its fibre, else as `usualPlyWidthMm`.
    [[nodiscard]] double of(const thread::Thread& thread) const;
    bool operator==(const PlyWidths&) const = default;
};

/// Common practice, from memory: cotton and unknown fibres 0.40 mm, silk 0.35, linen 0.45, wool
/// 0.75, metallic threads 0.35.
[[nodiscard]] double usualPlyWidthMm(const thread::Thread& thread);

inline constexpr double kLeastPlyWidthMm = 0.05;
inline constexpr double kMostPlyWidthMm = 5;

/// From a stitched sample: `strands` strands laid side by side without a gap are `widthMm` wide.
/// None when the width of one comes out of its range.
[[nodiscard]] std::optional<double> plyWidthFromSample(int strands, double widthMm);

/// Share (0..1) of a cell's area that a full cross covers, from geometry.
///
/// Each leg is a band √2·n·w wide along the cell's sides; bare ground is left in the square that
/// both legs miss: 1 - max(0, 1 - √2·n·w/s)², with s = 25.4·over/count mm. Checks: 14 over 1, 2
/// strands 0.858; 36 over 2, 2 strands 0.961; 36 over 2, 1 strand 0.641.
[[nodiscard]] double coverage(const thread::Ground& ground, int strands,
                              double plyWidthMm = kPlyWidthMm);

/// How much of the cloth is hidden counts as covered (ours: common practice, no source).
inline constexpr double kCovers = 0.95;

/// Fewest strands that cover `share` (0..1) of a cell, or none when more than `most` would be
/// needed.
[[nodiscard]] std::optional<int> strandsToCover(const thread::Ground& ground, double plyWidthMm,
                                                double share = kCovers, int most = 12);

} // namespace otherskein::colourway
