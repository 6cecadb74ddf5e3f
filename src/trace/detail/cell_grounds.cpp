#include "trace/detail/cell_grounds.h"

#include "trace/detail/median_colour.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kAlike = 40; // BGR

/// The median of a cell's ring near its sides; where a broad sign without corners fills that, the
/// paper that all corners of the ring have. What such a sign leaves of a coloured ground looks as
/// lines do.
cv::Vec3f groundOf(const cv::Mat& cell) {
    constexpr float kPaper = 225;
    constexpr double kSomeAround = 0.4; // strokes into the corners have less of the outermost lap
    const int size = cell.rows;
    const int outer = std::max(2, static_cast<int>(std::lround(0.12 * size)));
    const int inner = std::max(outer + 2, static_cast<int>(std::lround(0.21 * size)));
    const auto isRim = [&](int place) { return place < inner || place >= size - inner; };
    std::vector<cv::Vec3b> ring;
    std::vector<cv::Vec3b> lap; // its outermost
    std::array<std::vector<cv::Vec3b>, 4> corners;
    for (int y = outer; y < size - outer; ++y) {
        for (int x = outer; x < size - outer; ++x) {
            const auto& pixel = cell.at<cv::Vec3b>(y, x);
            if (isRim(y) || isRim(x)) {
                ring.push_back(pixel);
            }
            if (y == outer || x == outer || y + 1 == size - outer || x + 1 == size - outer) {
                lap.push_back(pixel);
            }
            if (isRim(y) && isRim(x)) {
                corners[(2 * y < size ? 0 : 2) + (2 * x < size ? 0 : 1)].push_back(pixel);
            }
        }
    }
    const cv::Vec3f usual = medianColourOf(ring);
    std::array<cv::Vec3f, 4> ends;
    std::ranges::transform(corners, ends.begin(), medianColourOf<uchar>);
    const cv::Vec3f end = (ends[0] + ends[1] + ends[2] + ends[3]) / 4;
    const auto isEnd = [&](const cv::Vec3f& one) { return cv::norm(one - end) < kAlike; };
    const auto alike = static_cast<double>(std::ranges::count_if(lap, isEnd));
    return std::ranges::all_of(ends, isEnd) &&
                   alike > kSomeAround * static_cast<double>(lap.size()) &&
                   std::min({end[0], end[1], end[2]}) > kPaper
               ? end
               : usual;
}

} // namespace

std::vector<cv::Vec3f> groundsOf(const Sheet& sheet) {
    std::vector<cv::Vec3f> result(static_cast<std::size_t>(sheet.columns * sheet.rows));
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        for (int i = range.start * sheet.columns; i < range.end * sheet.columns; ++i) {
            result[static_cast<std::size_t>(i)] =
                groundOf(sheet.straight(sheet.box(i % sheet.columns, i / sheet.columns)));
        }
    });
    return result;
}

} // namespace otherskein::trace::detail
