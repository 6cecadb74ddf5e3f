#pragma once

#include "drawing/detail/relief.h"

#include <memory>

namespace otherskein::drawing::detail {

// Reliefs that were asked for lately: a zoom that comes back, the swatches of a table, and all rows
// worked with as many strands share them. A few tens of megabytes at most, one set a thread.

/// A cross for a chart or a swatch.
struct CrossWish {
    int width = 8; ///< pixels
    int height = 8;
    int size = 8; ///< the least width and height of the cells that it lies among
    double coverage = 1;
    int variant = 0;
};

/// Nearly crossRelief: made smaller or larger out of one that all sizes share (a tenth of the time;
/// a chart of broken cells with four thicknesses needs 64 of them for one frame), and of a coverage
/// rounded to 1/256.
[[nodiscard]] std::shared_ptr<const CrossRelief> keptCross(const CrossWish& wish);
[[nodiscard]] std::shared_ptr<const ClothRelief> keptCloth(int width, int height,
                                                           const Cloth& cloth, int place);
/// Bytes held for the calling thread, and the most that will be.
[[nodiscard]] std::size_t keptReliefBytes();
inline constexpr std::size_t kMostReliefBytes = 32U << 20U;

} // namespace otherskein::drawing::detail
