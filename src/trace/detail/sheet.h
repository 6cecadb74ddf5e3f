#pragma once

#include "trace/detail/lattice.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// A grid put straight, its light made even: paper is white everywhere.
struct Sheet {
    cv::Mat straight; ///< 8-bit BGR, columns·cell × rows·cell
    int cell = 0;     ///< px of a cell's side
    int columns = 0;
    int rows = 0;
    Lattice lattice; ///< where it lay on the page

    [[nodiscard]] cv::Rect box(int column, int row) const {
        return {column * cell, row * cell, cell, cell};
    }
};

/// Colour of the paper over the page, a pixel for each block of kPaperBlock px: CV_32FC3. Follows
/// uneven light where bare paper shows it; constant where the paper is.
inline constexpr int kPaperBlock = 48;
[[nodiscard]] cv::Mat paperOf(const cv::Mat& bgr);

/// A side of a cell between 16 and 36 px, near the page's own.
[[nodiscard]] int cellSizeFor(double pitch);

[[nodiscard]] Sheet sheetOf(const cv::Mat& bgr, const cv::Mat& paper, const Lattice& lattice,
                            int cell);
/// Of a grid that was drawn with cells of `cell` px, each beginning at a whole pixel: its pixels as
/// they are, paper made white; a part of `bgr` where it is.
[[nodiscard]] Sheet drawnSheet(const cv::Mat& bgr, const cv::Mat& paper, const Lattice& lattice,
                               int cell);

} // namespace otherskein::trace::detail
