#pragma once

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// Where colours change from above to below: 8 bits, the largest change of a channel.
[[nodiscard]] cv::Mat changeAlongX(const cv::Mat& bgr);
/// Where they change from left to right, transposed: its rows are the picture's columns.
[[nodiscard]] cv::Mat changeAlongYTransposed(const cv::Mat& bgr);

/// Where lines or borders of colours run along x: 8 bits, as large as the picture. Gaps up to
/// `gap` px (of dotted lines) are closed, then strokes shorter than `longest` px (of symbols) are
/// wiped out.
[[nodiscard]] cv::Mat edgesAlongX(const cv::Mat& bgr, int gap, int longest);
/// The same along y, transposed: its rows are the picture's columns.
[[nodiscard]] cv::Mat edgesAlongYTransposed(const cv::Mat& bgr, int gap, int longest);

} // namespace otherskein::trace::detail
