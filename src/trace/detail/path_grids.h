#pragma once

#include "trace/detail/lattice.h"
#include "trace/detail/pdf_paths.h"

namespace otherskein::trace::detail {

/// Grids that a page draws whole, the largest first: every line of them goes from one end to the
/// other, at one step each way. `scale`: px of the page's picture a point, each way.
[[nodiscard]] std::vector<Lattice> gridsAmong(const PagePaths& page, const cv::Point2d& scale);

/// The same of a page that is a PDF's.
[[nodiscard]] std::vector<Lattice> gridsDrawnOn(const Page& page);

} // namespace otherskein::trace::detail
