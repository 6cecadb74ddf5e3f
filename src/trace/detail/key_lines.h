#pragma once

#include "trace/tracing.h"

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

/// A line of a key's table: a picture and the text to its right.
struct KeyLine {
    cv::Point2d anchor; ///< left end of the text, half way up its capitals; px of the page
    double capital = 0; ///< height of capitals, px
    /// What was found left of the text, the nearest first: a picture, or a number before it.
    std::vector<cv::Rect> marks;
    std::vector<Word> words;
};

/// Lines of text on a page that have a picture close to their left. `words` are those outside of
/// grids. `bgr`: the page; `paper`: as paperOf gives it.
[[nodiscard]] std::vector<KeyLine> keyLines(std::vector<Word> words, const cv::Mat& bgr,
                                            const cv::Mat& paper);

} // namespace otherskein::trace::detail
