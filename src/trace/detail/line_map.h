#pragma once

#include "trace/detail/lattice.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// Where lines or borders of colours run one way. The page is cut into strips across the lines, and
/// each strip averaged along them, so that dashes close and paper's grain sinks.
struct LineMap {
    int strip = 0;    ///< px along the lines
    cv::Mat strength; ///< CV_8U; a row is a strip, its columns are the places across, in px.
};

/// Lines along x (their places are y) and along y (their places are x).
struct LineMaps {
    LineMap x;
    LineMap y;
};

/// How sure a change of colour is one, 0 to 255: a faint line well above the page's own grain
/// counts nearly as much as a bold one. `bgr`: 8 bits, three channels.
[[nodiscard]] LineMaps lineMapsOf(const cv::Mat& bgr, int strip);

/// A part of a map put straight along a lattice: CV_8U, `steps` rows for each cell along the lines,
/// `bins` columns for each cell across them. Line i of `area` lies at column i·bins − ½.
struct LineSheet {
    cv::Mat strength;
    int steps = 0;
    int bins = 0;
};
[[nodiscard]] LineSheet lineSheetOf(const LineMap& map, bool alongX, const Lattice& lattice,
                                    const cv::Rect& area, int steps, int bins);

} // namespace otherskein::trace::detail
