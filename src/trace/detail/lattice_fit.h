#pragma once

#include "trace/detail/lattice_samples.h"
#include "trace/detail/tiles.h"

#include <optional>
#include <vector>

namespace otherskein::trace::detail {

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

} // namespace otherskein::trace::detail
