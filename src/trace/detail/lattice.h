#pragma once

#include "trace/page.h"

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

/// The grid lines of a chart on a page. Corner (column, row) of the grid lies at `toPage` of it, a
/// projective map, which covers a turned page and a mild perspective.
struct Lattice {
    cv::Matx33d toPage = cv::Matx33d::eye();
    int columns = 0;
    int rows = 0;
    double pitch = 0; ///< px of one cell, the mean of both ways

    [[nodiscard]] cv::Point2d corner(double column, double row) const;
    /// Px from column to column and from row to row, in the middle of `area`.
    [[nodiscard]] cv::Point2d cellSize(const cv::Rect2d& area) const;
    /// The same lines, counted from another corner.
    [[nodiscard]] Lattice from(int column, int row) const;
};

/// The charts' grids on a page, the largest first; none where nothing repeats both ways.
/// `bgr`: 8 bits, three channels. `words`: what a PDF says is written on it, numbers among them.
[[nodiscard]] std::vector<Lattice> findGrids(const cv::Mat& bgr,
                                             const std::vector<Word>& words = {});

/// The page put straight: each cell of the lattice becomes a square of `cell` px. Cells from
/// `area.x`, `area.y`, which may lie outside the grid; beyond the page is white.
[[nodiscard]] cv::Mat straightened(const cv::Mat& page, const Lattice& lattice, int cell,
                                   const cv::Rect& area);

} // namespace otherskein::trace::detail
