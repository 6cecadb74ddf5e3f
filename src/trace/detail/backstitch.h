#pragma once

#include "chart/chart.h"
#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Lines over the cells of a sheet.
struct Backstitch {
    std::vector<chart::Line> lines; ///< in half cells from the sheet's corner; their key is kBare
    std::vector<char> over;         ///< of each cell: a line lies over it or along it
    /// Of each cell, which of its sides and diagonals: 1 top, 2 right, 4 bottom, 8 left, 16
    /// falling, 32 rising.
    std::vector<unsigned char> where;
};

/// Lines that are clearly backstitch: along sides of cells, thicker than the grid's own line there,
/// or from corner to corner.
[[nodiscard]] Backstitch backstitchOf(const Sheet& sheet);

/// What of each cell's look is not hidden under lines: rows of 0 and 1, as looks.
[[nodiscard]] cv::Mat visibleOf(const Sheet& sheet, const Backstitch& backstitch);

} // namespace otherskein::trace::detail
