#pragma once

#include "chart/chart.h"
#include "chart/motifs.h"

#include <optional>
#include <span>
#include <vector>

namespace otherskein::chart {

// Mending: what a hand does to the cells and the key of a chart. Nothing here draws or remembers.

/// The cells of a straight line from one to the other, both with it, each touching the next by a
/// side or a corner (Bresenham's line). Cells may lie outside any grid.
[[nodiscard]] std::vector<Cell> cellsBetween(const Cell& from, const Cell& to);

/// All cells that are reached from `start` over the sides of cells which name the same row of the
/// key, or are bare as it is. `start` lies in the grid (asserted). Linear in the cells reached.
[[nodiscard]] std::vector<Cell> regionOf(const Grid& grid, const Cell& start);

/// Sets those of `cells` that lie in the grid. The smallest area that holds what changed; empty
/// when all was so already.
Area setCells(Grid& grid, std::span<const Cell> cells, KeyIndex key);

/// The smallest area that holds both; an empty one adds nothing.
[[nodiscard]] Area united(const Area& one, const Area& other);

/// Everything that is worked in row `from`, stitches and lines, is worked in row `to` instead.
[[nodiscard]] Chart withRowReplaced(const Chart& chart, KeyIndex from, KeyIndex to);

/// Whether a stitch or a line names the row.
[[nodiscard]] bool isUsed(const Chart& chart, KeyIndex row);

/// Lines that name each row of the key.
[[nodiscard]] std::vector<int> lineCounts(const Chart& chart);

/// The key without a row that nothing names (asserted); later rows move up.
[[nodiscard]] Chart withoutRow(const Chart& chart, KeyIndex row);

/// `wanted`, or the nearest pixel that no row has, apart from the row `but`: no two rows of a key
/// share a pixel, though two threads may look alike.
[[nodiscard]] colour::Srgb8 freePixel(const Key& key, const colour::Srgb8& wanted,
                                      std::optional<KeyIndex> but = std::nullopt);

/// The motif that most of the straight line from `from` to `to` runs through; none when it touches
/// none. Points are in cells from the top left corner.
[[nodiscard]] std::optional<MotifIndex>
motifUnder(const Motifs& motifs, const CutMotif::Point& from, const CutMotif::Point& to);

} // namespace otherskein::chart
