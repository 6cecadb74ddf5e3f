#pragma once

#include "trace/detail/lattice.h"
#include "trace/tracing.h"

namespace otherskein::trace::detail {

/// The page's pixels, not copied: the page outlives the view.
[[nodiscard]] cv::Mat viewOf(const QImage& bgr);
/// The lattice whose corners are the outline's.
[[nodiscard]] Lattice latticeOf(const FoundGrid& grid);
[[nodiscard]] FoundGrid foundGrid(const Lattice& lattice);

} // namespace otherskein::trace::detail
