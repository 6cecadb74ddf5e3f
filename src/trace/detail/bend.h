#pragma once

#include "trace/detail/lattice.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// How far the lines of a grid on a bent page lie from where its lattice has them: a corner for
/// each cell's, CV_32FC2, in cells. Empty where the page is flat.
struct Bend {
    cv::Mat offsets;
};

/// What the lines of `straight`, a grid put straight with cells of `cell` px, still show of a bend.
[[nodiscard]] Bend bendOf(const cv::Mat& straight, int cell);

/// As straightened() of the whole of `lattice`, its bend taken out.
[[nodiscard]] cv::Mat unbent(const cv::Mat& page, const Lattice& lattice, int cell,
                             const Bend& bend);

} // namespace otherskein::trace::detail
