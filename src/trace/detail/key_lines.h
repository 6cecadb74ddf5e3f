#pragma once

#include "trace/tracing.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// A line of a key's table: a picture and the text beside it.
struct KeyLine {
    cv::Point2d anchor; ///< an end of the text, half way up its capitals; px of the page
    double capital = 0; ///< height of capitals, px
    /// What was found beside the text, the nearest first: a picture, or a number before it.
    std::vector<cv::Rect> marks;
    std::vector<Word> words;
};

/// Lines of text on a page that have a picture close to their left. `words` are those outside of
/// grids. `bgr`: the page; `paper`: as paperOf gives it; `near`: how far a picture may stand from
/// its text, in heights of capitals.
[[nodiscard]] std::vector<KeyLine> keyLines(std::vector<Word> words, const cv::Mat& bgr,
                                            const cv::Mat& paper, double near = 6);

/// The same of lines with a picture close to their right.
[[nodiscard]] std::vector<KeyLine> keyLinesAfter(std::vector<Word> words, const cv::Mat& bgr,
                                                 const cv::Mat& paper);

} // namespace otherskein::trace::detail
