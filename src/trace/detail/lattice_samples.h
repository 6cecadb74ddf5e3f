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

/// Where the lines of the page lie near those of `lattice`, over `area` in its cells.
[[nodiscard]] std::vector<LatticeSample> lineSamples(const LineMaps& maps, const Lattice& lattice,
                                                     const cv::Rect& area);

/// `lattice` moved onto the lines of the page, looked at from near, over `area` in its cells.
[[nodiscard]] Lattice settled(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area);

} // namespace otherskein::trace::detail
