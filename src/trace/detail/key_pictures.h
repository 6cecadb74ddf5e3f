#pragma once

#include "trace/detail/found_rows.h"
#include "trace/detail/key_lines.h"

namespace otherskein::trace::detail {

/// How unlike each line's picture is to each group's symbol: rows of lines, columns of groups. 0 is
/// the same; at 1 and above they are surely not.
///
/// A key shows its symbols at a scale and a place of its own, the same in all its lines. That scale
/// and place are searched for which make the lines as like to the groups as can be; then a line's
/// picture is looked at as a cell is.
/// `cell`: width and height of the grid's cells, px of the page.
[[nodiscard]] std::vector<std::vector<double>> unlikeness(const std::vector<KeyLine>& lines,
                                                          const cv::Mat& bgr, const cv::Mat& paper,
                                                          const std::vector<GroupLook>& groups,
                                                          const cv::Size2d& cell);

} // namespace otherskein::trace::detail
