#include "trace/detail/like_cells.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr double kInset = 0.24; // of a cell
constexpr int kSide = 5;
constexpr float kAlike = 17; // grey levels, root mean square
constexpr std::size_t kMostKinds = 160;

cv::Mat middlesOf(const Sheet& sheet) {
    cv::Mat middles(sheet.columns * sheet.rows, kSide * kSide * 3, CV_32F);
    const int inset = static_cast<int>(std::lround(kInset * sheet.cell));
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        cv::Mat small;
        for (int row = range.start; row < range.end; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const cv::Rect box = sheet.box(column, row);
                const cv::Rect inner(box.x + inset, box.y + inset, box.width - 2 * inset,
                                     box.height - 2 * inset);
                cv::resize(sheet.straight(inner), small, {kSide, kSide}, 0, 0, cv::INTER_AREA);
                small.reshape(1, 1).convertTo(middles.row(row * sheet.columns + column), CV_32F);
            }
        }
    });
    return middles;
}

} // namespace

LikeCells likeCellsOf(const Sheet& sheet) {
    const cv::Mat middles = middlesOf(sheet);
    const float reach = kAlike * kAlike * static_cast<float>(middles.cols);
    std::vector<cv::Mat> leaders;
    LikeCells result;
    result.of.assign(static_cast<std::size_t>(middles.rows), 0);
    int last = 0; // neighbours are often alike
    for (int i = 0; i < middles.rows; ++i) {
        int best = -1;
        float least = reach;
        const auto look = [&](int k) {
            const auto distance = static_cast<float>(
                cv::norm(middles.row(i), leaders[static_cast<std::size_t>(k)], cv::NORM_L2SQR));
            if (distance < least) {
                least = distance;
                best = k;
            }
        };
        if (!leaders.empty()) {
            look(last);
            for (int k = 0; k < static_cast<int>(leaders.size()) && least > reach / 4; ++k) {
                look(k);
            }
        }
        if (best < 0 && leaders.size() < kMostKinds) {
            best = static_cast<int>(leaders.size());
            leaders.push_back(middles.row(i));
            result.members.emplace_back();
        }
        if (best < 0) { // one of too many kinds: like nothing
            best = static_cast<int>(result.members.size());
            result.members.emplace_back();
        }
        result.of[static_cast<std::size_t>(i)] = best;
        result.members[static_cast<std::size_t>(best)].push_back(i);
        last = best < static_cast<int>(leaders.size()) ? best : 0;
    }
    result.count = static_cast<int>(result.members.size());
    return result;
}

} // namespace otherskein::trace::detail
