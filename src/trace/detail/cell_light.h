#pragma once

#include <opencv2/imgproc.hpp>

namespace otherskein::trace::detail {

/// Share of a cell at each side that is left out where cells are looked at, since grid lines lie
/// there.
inline constexpr double kLookInset = 0.11;

/// A tint stands for as many pixels of light as its square holds, and eyes and printers are more
/// exact in light.
inline constexpr float kBlueTintWeight = 1.5F;
inline constexpr float kRedTintWeight = 2.1F;

inline float lightOf(const cv::Vec3f& bgr) {
    return 0.114F * bgr[0] + 0.587F * bgr[1] + 0.299F * bgr[2];
}

/// Writes how far blue and red are off the light in places × places squares of a part (CV_32FC3),
/// and returns where the writing ended.
inline float* writeTints(const cv::Mat& part, int places, float* out) {
    cv::Mat tints;
    cv::resize(part, tints, {places, places}, 0, 0, cv::INTER_AREA);
    for (int y = 0; y < places; ++y) {
        for (int x = 0; x < places; ++x) {
            const cv::Vec3f& one = tints.at<cv::Vec3f>(y, x);
            const float light = lightOf(one);
            *out++ = kBlueTintWeight * (one[0] - light);
            *out++ = kRedTintWeight * (one[2] - light);
        }
    }
    return out;
}

} // namespace otherskein::trace::detail
