#pragma once

#include "trace/detail/lattice.h"
#include "trace/detail/pdf_paths.h"

#include <optional>

namespace otherskein::trace::detail {

/// The grid in a frame that a page draws, with no lines in it, where numbers along one edge count
/// its cells and what is drawn in it stands in cells, or text in rows. Cells are square. `scale`:
/// px of the page's picture a point, each way.
[[nodiscard]] std::optional<Lattice> countedFrame(const PagePaths& page, const cv::Point2d& scale,
                                                  const std::vector<Word>& words);

/// The same of a page that is a PDF's.
[[nodiscard]] std::optional<Lattice> countedFrameOn(const Page& page);

} // namespace otherskein::trace::detail
