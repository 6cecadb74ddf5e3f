#pragma once

#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Stains lie over paper and what is printed on it: their edges go through cells, while fills end
/// at grid lines. `grounds` (CV_32FC3) says each cell's ground, `isPaper` (CV_8U) which is known to
/// be paper. Returns which cells (CV_8U) a stain lies in, those around it with it.
[[nodiscard]] cv::Mat stainedCells(const Sheet& sheet, const cv::Mat& grounds,
                                   const cv::Mat& isPaper);

/// Makes stained cells as white as the rest of the paper, along each edge of the stain.
void whitenStains(Sheet& sheet, const cv::Mat& grounds, const cv::Mat& isStained);

} // namespace otherskein::trace::detail
