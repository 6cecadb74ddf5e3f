#pragma once

#include "trace/detail/key_lines.h"

#include <opencv2/core.hpp>

#include <optional>

namespace otherskein::trace::detail {

/// Where the ink of a symbol lies and how far it spreads.
struct Spread {
    cv::Point2d centre;
    double x = 0;
    double y = 0;

    [[nodiscard]] double size() const { return std::sqrt(x * y); }
};

/// `weights`: CV_32F; none where there is next to nothing.
[[nodiscard]] std::optional<Spread> spreadOf(const cv::Mat& weights);
/// How much each pixel of a CV_32F picture differs from `ground`; 0 where that is no ink.
[[nodiscard]] cv::Mat inkOf(const cv::Mat& light, double ground);

/// A line's picture cut out of the page, paper white, and without the frame around it.
struct Cut {
    cv::Mat bgr;               ///< CV_32FC3, or empty
    cv::Point2d toLocal;       ///< from the anchor to the picture's corner: subtract it
    std::optional<Spread> ink; ///< relative to the anchor
};

/// The lines' pictures without the rules of a table around them, where most have such: a table's
/// lines share a rule, so not all have it on all sides. `marks`: px of the page.
[[nodiscard]] std::vector<cv::Rect> withinRules(const std::vector<cv::Rect>& marks,
                                                const cv::Mat& bgr, const cv::Mat& paper);

/// The box that most lines' pictures stand in, relative to the anchor; none where they have none.
/// `marks`: the line's picture, for each.
[[nodiscard]] std::optional<cv::Rect2d> commonBox(const std::vector<KeyLine>& lines,
                                                  const std::vector<cv::Rect>& marks,
                                                  const cv::Mat& bgr, const cv::Mat& paper);

[[nodiscard]] Cut cutOf(const KeyLine& line, const cv::Rect& mark,
                        const std::optional<cv::Rect2d>& common, const cv::Mat& bgr,
                        const cv::Mat& paper);

} // namespace otherskein::trace::detail
