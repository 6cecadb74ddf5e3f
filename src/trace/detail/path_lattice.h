#pragma once

#include "trace/detail/pdf_paths.h"

namespace otherskein::trace::detail {

/// A place on a page through a map of it.
[[nodiscard]] cv::Point2d through(const cv::Matx33d& map, const cv::Point2d& point);

/// How points of a page lie on a grid's cells.
struct PathLattice {
    cv::Matx33d toCells;
    bool isExact = false; ///< the grid's own lines told it, from one end to the other
};

/// `toCells`, as well as a grid is found, made exact by the upright and level lines that the page
/// paints in the grid.
[[nodiscard]] PathLattice latticeAmong(const PagePaths& page, const cv::Matx33d& toCells,
                                       int columns, int rows);

} // namespace otherskein::trace::detail
