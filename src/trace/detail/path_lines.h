#pragma once

#include "chart/chart.h"
#include "trace/detail/path_lattice.h"
#include "trace/detail/pdf_paths.h"

namespace otherskein::trace::detail {

/// What the lines among a page's paths are for a grid.
struct PathLines {
    struct Look {
        std::optional<cv::Vec3b> colour; ///< BGR, where it is said
        double width = 0;                ///< cells
    };
    /// In half cells from the grid's corner; their key is the index of their look.
    std::vector<chart::Line> lines;
    std::vector<Look> looks;
    std::set<PathPlace> places; ///< of all paths that they are, and of knots at their ends
    /// Of the grid's own lines and edges of cells; none where other paths lie along them. Not white
    /// lines, which tell pale cells from paper.
    GonePaths ofGrid;
    GonePaths ofFrame; ///< the same along the border only: they cover what comes in from beyond
    GonePaths ofEdge;  ///< small areas that lie over the border in part
    PathLattice lattice;
    /// Whether no other line of the page may be backstitch: all its lines in the grid are told.
    bool isAll = false;
};

/// Lines from corner to corner of cells, or middles, that are neither the grid's own nor edges of
/// cells that are filled nor symbols'. `toCells` maps points of the page to cells, about as well as
/// a grid is found: the lines themselves say it exactly.
[[nodiscard]] PathLines backstitchAmong(const PagePaths& page, const cv::Matx33d& toCells,
                                        int columns, int rows);

} // namespace otherskein::trace::detail
