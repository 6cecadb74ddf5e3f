#pragma once

#include "trace/tracing.h"

#include <opencv2/core.hpp>

#include <span>

namespace otherskein::trace::detail {

/// Numbers along the edges that lie over a grid in part: their boxes on the page.
[[nodiscard]] std::vector<QRectF> numbersOverEdge(const std::vector<Word>& words,
                                                  const FoundGrid& grid);

/// Adds to `mask` and `masked`, of a sheet of `grid` with cells of `cell` px, what numbers along
/// its edges cover of the cells there: some charts print them half over the frame.
void coverEdgeNumbers(const std::vector<Word>& words, const FoundGrid& grid, int cell,
                      cv::Mat& mask, std::span<char> masked);

} // namespace otherskein::trace::detail
