#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

/// Where a page is drawn larger: the lattice's lines, along one way, on the drawing, px.
struct Comb {
    double pitch = 0;
    double from = 0;                 ///< place of line 0
    std::vector<double> others = {}; ///< steps from there to other places where it may be
};

/// How much changes at each place across the lines, in strips of a fifth of a cell (of some 160 at
/// most): CV_32F, a row each.
[[nodiscard]] cv::Mat changesOf(const cv::Mat& grey, bool alongX, int cell);

/// The comb near `start`: its pitch, and the place around which lines are the same both ways.
[[nodiscard]] Comb bestComb(const cv::Mat& changes, const Comb& start, int cells);

/// Of the steps along x and along y, the two by which cells come to be of clearly fewer kinds than
/// where they begin at `first`, or by which much less is printed across their sides; 0, 0 where
/// none are. A cell that begins elsewhere has parts of its neighbours, and so is of many kinds.
/// `picture` is 8-bit BGR, cells are `cell` px.
[[nodiscard]] cv::Point fewestKinds(const cv::Mat& picture, const cv::Point& first, int cell,
                                    int columns, int rows, const std::vector<double>& alongX,
                                    const std::vector<double>& alongY);

} // namespace otherskein::trace::detail
