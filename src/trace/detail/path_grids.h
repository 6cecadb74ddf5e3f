#pragma once

#include "trace/detail/lattice.h"
#include "trace/detail/pdf_paths.h"

namespace otherskein::trace::detail {

/// Grids that a page draws whole, the largest first: every line of them goes from one end to the
/// other, at one step each way. `scale`: px of the page's picture a point, each way.
[[nodiscard]] std::vector<Lattice> gridsAmong(const PagePaths& page, const cv::Point2d& scale);

/// The same of a page that is a PDF's.
[[nodiscard]] std::vector<Lattice> gridsDrawnOn(const Page& page);

/// Whether one of the grids is so large that it is the page's chart: else a key may be drawn as a
/// grid is, and a chart without lines stand beside it.
[[nodiscard]] bool coverMuch(const std::vector<Lattice>& grids, const cv::Size& page);

/// Adds those that lie over none of the grids, the largest first again.
void addOthers(const std::vector<Lattice>& more, std::vector<Lattice>& grids);

} // namespace otherskein::trace::detail
