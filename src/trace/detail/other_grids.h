#pragma once

#include "trace/detail/bare_cells.h"
#include "trace/tracing.h"

namespace otherskein::trace::detail {

/// How strictly two kinds of cells take turns, as threads of a cloth or tiles of a floor do: the
/// share of cells that are more like those across their corners than those at their sides.
[[nodiscard]] double takingTurns(const cv::Mat& looks, std::span<const LookGrid> grids);

/// Do the grids run off their pictures, at three sides at least? Never those of a PDF.
[[nodiscard]] bool fillPictures(std::span<const Page> pages, std::span<const Piece> pieces);

/// The puzzle of nine digits: 9 × 9 cells of which many are filled, and no symbol stands twice in a
/// row or a column. `kinds`: of each cell, row by row; -1 is bare.
[[nodiscard]] bool isDigitPuzzle(std::span<const int> kinds, int columns, int rows);

/// A board for a game: 8 to 12 large squares each way, of several cells each, filled and bare in
/// turn but for what stands on them. `kinds` as isDigitPuzzle.
[[nodiscard]] bool isBoard(std::span<const int> kinds, int columns, int rows);

/// The front of a house: blocks of two or three cells of many kinds, the lines between them all of
/// one kind that is in hardly any block. `kinds` as isDigitPuzzle.
[[nodiscard]] bool isWindowFront(std::span<const int> kinds, int columns, int rows);

/// The puzzle of crossing words: cells are black or open, and open ones at which a word begins,
/// right of or below a black one or the edge, have a small number in a corner, no others.
[[nodiscard]] bool isWordPuzzle(const Sheet& sheet);

/// The square code of dark and light cells that machines read: an eye of 7 × 7 cells in three of
/// its corners.
[[nodiscard]] bool isSquareCode(const Sheet& sheet);

/// How many of the cells with a mark have ink that runs over one of their sides into the next cell,
/// as writing does and signs seldom do: 0 to 1.
[[nodiscard]] double runningOver(const Sheet& sheet);

} // namespace otherskein::trace::detail
