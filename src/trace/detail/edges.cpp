#include "trace/detail/edges.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>

namespace otherskein::trace::detail {

namespace {

constexpr double kFaint = 8; // of 255: paper grain, and the borders of JPEG's blocks of 8 px

/// The largest change of a channel from one row above to one row below.
cv::Mat changeAcross(const cv::Mat& bgr) {
    cv::Mat change(bgr.size(), CV_8UC1, cv::Scalar(0));
    if (bgr.rows < 3) {
        return change;
    }
    constexpr int kStripe = 64; // rows at a time, which stay in the cache
    const int stripes = (bgr.rows - 2 + kStripe - 1) / kStripe;
    cv::parallel_for_({0, stripes}, [&](const cv::Range& range) {
        cv::Mat difference;
        std::array<cv::Mat, 3> channels;
        for (int stripe = range.start; stripe < range.end; ++stripe) {
            const int from = 1 + stripe * kStripe;
            const int to = std::min(bgr.rows - 1, from + kStripe);
            cv::absdiff(bgr.rowRange(from - 1, to - 1), bgr.rowRange(from + 1, to + 1), difference);
            cv::split(difference, channels.data());
            cv::Mat out = change.rowRange(from, to);
            cv::max(channels[0], channels[1], out);
            cv::max(out, channels[2], out);
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
