#include "trace/detail/negative.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>

namespace otherskein::trace::detail {

bool isNegative(const cv::Mat& bgr) {
    constexpr double kDark = 80;    // grey levels, in the strongest channel: black as print has it
    constexpr int kLongSide = 1200; // px to look at; strokes stay a pixel or so wide
    const double scale =
        std::min(1.0, static_cast<double>(kLongSide) / std::max(bgr.cols, bgr.rows));
    cv::Mat small;
    cv::resize(bgr, small, {}, scale, scale, cv::INTER_AREA);
    cv::Mat blue;
    cv::Mat green;
    cv::Mat light;
    cv::extractChannel(small, blue, 0);
    cv::extractChannel(small, green, 1);
    cv::extractChannel(small, light, 2);
    cv::max(light, cv::max(blue, green), light);
    const auto all = static_cast<double>(light.total());
    const double dark = cv::countNonZero(light < kDark) / all;
    if (dark < 0.5) {
        return false;
    }
    // Paper lies in areas, lines and symbols do not: what is left of the light when a square has
    // to fit in that is larger than a symbol, and no larger than a page's margin.
    constexpr double kMostPaper = 0.005;
    const int side = std::max(9, std::max(small.cols, small.rows) / 40);
    const cv::Mat square = cv::Mat::ones(side, side, CV_8U);
    cv::Mat areas;
    cv::morphologyEx(light >= kDark, areas, cv::MORPH_OPEN, square);
    if (cv::countNonZero(areas) / all > kMostPaper) {
        return false;
    }
    // Lines are lighter than what lies beside them, not darker.
    const cv::Mat stroke = cv::Mat::ones(3, 3, CV_8U);
    cv::Mat thinLight;
    cv::Mat thinDark;
    cv::morphologyEx(light, thinLight, cv::MORPH_TOPHAT, stroke);
    cv::morphologyEx(light, thinDark, cv::MORPH_BLACKHAT, stroke);
    return cv::sum(thinLight)[0] > cv::sum(thinDark)[0];
}

} // namespace otherskein::trace::detail
