#include "trace/detail/key_patches.h"

#include "trace/detail/sheet.h"
#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr float kNear = 10;    // levels of a channel
constexpr double kLeast = 0.4; // of a cell's side
constexpr double kMost = 6;
constexpr double kLongest = 3; // times as long as high
constexpr double kFull = 0.85; // of its box
constexpr int kLeastPx = 5;

/// Where a page has a colour, outside of its grids: CV_8U.
cv::Mat placesOf(const Page& page, std::size_t number, std::span<const Piece> pieces,
                 const cv::Vec3f& colour) {
    // A tint near white is told from white.
    float white = 0;
    for (int channel = 0; channel < 3; ++channel) {
        white = std::max(white, 255 - colour[channel]);
    }
    const float near = std::min(kNear, white / 2);
    const cv::Mat view = viewOf(page.picture);
    const cv::Scalar paper = cv::mean(paperOf(view));
    cv::Scalar low;
    cv::Scalar high;
    for (int channel = 0; channel < 3; ++channel) {
        const double scale = paper[channel] / 255;
        low[channel] = scale * static_cast<double>(colour[channel] - near);
        high[channel] = scale * static_cast<double>(colour[channel] + near);
    }
    cv::Mat places;
    cv::inRange(view, low, high, places);
    for (const Piece& piece : pieces) {
        if (piece.page == number) {
            std::vector<cv::Point> outline;
            for (const QPointF& corner : piece.grid.outline) {
                outline.emplace_back(static_cast<int>(corner.x()), static_cast<int>(corner.y()));
            }
            cv::fillPoly(places, std::vector{outline}, cv::Scalar(0));
        }
    }
    return places;
}

} // namespace

std::vector<double> patchesBeside(std::span<const Page> pages, std::span<const Piece> pieces,
                                  const cv::Vec3f& colour) {
    std::vector<double> sizes;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        const cv::Mat places = placesOf(pages[p], p, pieces, colour);
        cv::Mat labels;
        cv::Mat stats;
        cv::Mat centres;
        cv::connectedComponentsWithStats(places, labels, stats, centres, 4);
        const double cell = latticeOf(pieces[0].grid).pitch;
        for (int i = 1; i < stats.rows; ++i) {
            const int width = stats.at<int>(i, cv::CC_STAT_WIDTH);
            const int height = stats.at<int>(i, cv::CC_STAT_HEIGHT);
            const double size = std::sqrt(static_cast<double>(width) * height);
            if (std::min(width, height) >= kLeastPx && size > kLeast * cell &&
                size < kMost * cell &&
                std::max(width, height) < kLongest * std::min(width, height) &&
                stats.at<int>(i, cv::CC_STAT_AREA) > kFull * width * height) {
                sizes.push_back(size);
            }
        }
    }
    return sizes;
}

} // namespace otherskein::trace::detail
