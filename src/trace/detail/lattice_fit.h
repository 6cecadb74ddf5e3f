#pragma once

#include "trace/detail/lattice.h"
#include "trace/detail/tiles.h"

#include <optional>

namespace otherskein::trace::detail {

/// One place on the page where a coordinate of the lattice is known.
struct LatticeSample {
    cv::Point2d place;
    double coordinate = 0;
    bool isRow = false; ///< row coordinate at that place, else column
};

/// The projective map from lattice to page that fits best; samples far off are left out. None when
/// there are too few, or they do not fit.
[[nodiscard]] std::optional<cv::Matx33d> fittedLattice(std::vector<LatticeSample> samples,
                                                       double pitch);

struct FoundLattice {
    Lattice lattice;      ///< columns and rows are not known yet
    cv::Rect2d cells;     ///< what the tiles that agree cover, in its coordinates
    std::size_t seed = 0; ///< the tile that it began with
    std::vector<std::size_t> tiles;
};
/// The lattice that most of the tiles agree upon; those marked `used` are passed over, and more
/// marked that lead to none.
[[nodiscard]] std::optional<FoundLattice> latticeOf(const Tiles& tiles, std::vector<char>& used);

/// Where the lines of the page lie near those of `lattice`, over `area` in its cells.
[[nodiscard]] std::vector<LatticeSample> lineSamples(const LineMaps& maps, const Lattice& lattice,
                                                     const cv::Rect& area);

/// `lattice` moved onto the lines of the page, looked at from near, over `area` in its cells.
[[nodiscard]] Lattice settled(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area);

} // namespace otherskein::trace::detail
