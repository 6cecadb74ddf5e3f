#include "trace/detail/edges.h"

#include <opencv2/imgproc.hpp>

namespace otherskein::trace::detail {

namespace {

constexpr double kFaint = 8; // of 255: paper grain, and the borders of JPEG's blocks of 8 px

/// The largest change of a channel from one row above to one row below.
cv::Mat changeAcross(const cv::Mat& bgr) {
    cv::Mat change(bgr.size(), CV_8UC1, cv::Scalar(0));
    if (bgr.rows < 3) {
        return change;
    }
    const int width = bgr.cols;
    cv::parallel_for_({1, bgr.rows - 1}, [&](const cv::Range& range) {
        for (int y = range.start; y < range.end; ++y) {
            const uchar* above = bgr.ptr(y - 1);
            const uchar* below = bgr.ptr(y + 1);
            uchar* out = change.ptr(y);
            for (int x = 0; x < width; ++x) {
                int most = 0;
                for (int channel = 0; channel < 3; ++channel) {
                    most =
                        std::max(most, std::abs(above[3 * x + channel] - below[3 * x + channel]));
                }
                out[x] = static_cast<uchar>(most);
            }
        }
    });
    return change;
}

} // namespace

cv::Mat changeAlongX(const cv::Mat& bgr) {
    return changeAcross(bgr);
}

cv::Mat changeAlongYTransposed(const cv::Mat& bgr) {
    cv::Mat turned;
    cv::transpose(bgr, turned);
    return changeAcross(turned);
}

cv::Mat edgesAlongX(const cv::Mat& bgr, int gap, int longest) {
    cv::Mat change = changeAcross(bgr);
    const auto along = [](int length) {
        return cv::getStructuringElement(cv::MORPH_RECT, {std::max(1, length), 1});
    };
    cv::morphologyEx(change, change, cv::MORPH_CLOSE, along(gap));
    cv::morphologyEx(change, change, cv::MORPH_OPEN, along(longest));
    cv::subtract(change, cv::Scalar(kFaint), change);
    return change;
}

cv::Mat edgesAlongYTransposed(const cv::Mat& bgr, int gap, int longest) {
    cv::Mat turned;
    cv::transpose(bgr, turned);
    return edgesAlongX(turned, gap, longest);
}

} // namespace otherskein::trace::detail
