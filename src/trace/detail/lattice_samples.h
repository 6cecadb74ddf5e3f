#pragma once

#include "trace/detail/line_map.h"

#include <vector>

namespace otherskein::trace::detail {

/// One place on the page where a coordinate of the lattice is known.
struct LatticeSample {
    cv::Point2d place;
    double coordinate = 0;
    bool isRow = false; ///< row coordinate at that place, else column
};

/// How strong a line must be at least to count, of 255, where it is known which lines are to be
/// followed: those along x and those along y. Else all that repeats counts.
struct LeastLines {
    double x = 0;
    double y = 0;
};

/// Where the lines of the page lie near those of `lattice`, over `area` in its cells.
[[nodiscard]] std::vector<LatticeSample> lineSamples(const LineMaps& maps, const Lattice& lattice,
                                                     const cv::Rect& area,
                                                     const LeastLines& least = {});

/// `lattice` moved onto the lines of the page, looked at from near, over `area` in its cells.
[[nodiscard]] Lattice settled(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                              const LeastLines& least = {});

} // namespace otherskein::trace::detail
