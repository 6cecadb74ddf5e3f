#include "trace/detail/cell_marks.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kLights = kLookSide * kLookSide;
constexpr int kTints = kLookTints * kLookTints;

} // namespace

float Level::tintTo(const Level& other) const {
    return std::hypot(tint[0] - other.tint[0], tint[1] - other.tint[1]);
}

Level levelOf(const float* look) {
    std::vector<float> lights;
    for (int y = 3; y < kLookSide - 3; ++y) {
        for (int x = 3; x < kLookSide - 3; ++x) {
            lights.push_back(look[y * kLookSide + x]);
        }
    }
    Level level;
    level.light = medianOf(lights);
    const auto high = lights.begin() + static_cast<std::ptrdiff_t>(lights.size() * 4 / 5);
    std::ranges::nth_element(lights, high);
    level.ground = *high;
    for (int i = 0; i < kTints; ++i) {
        level.tint[0] += look[kLights + 2 * i] / kTints;
        level.tint[1] += look[kLights + 2 * i + 1] / kTints;
    }
    return level;
}

/// From the look of an even cell.
const std::vector<float>& lookWeights() {
    static const std::vector<float> all = [] {
        Sheet even;
        even.cell = 32;
        even.columns = 1;
        even.rows = 1;
        even.straight = cv::Mat(32, 32, CV_8UC3, cv::Scalar::all(155));
        const cv::Mat look = looksOf(even) / -100;
        return std::vector<float>(look.ptr<float>(), look.ptr<float>() + kLights);
    }();
    return all;
}

Mark markOf(const float* look, const Level& level, const float* paper, const Level& paperLevel) {
    const std::vector<float>& weight = lookWeights();
    const float step = level.light - paperLevel.light;
    const auto at = [&](int y, int x) {
        const int i = y * kLookSide + x;
        return look[i] - paper[i] - weight[static_cast<std::size_t>(i)] * step;
    };
    Mark mark;
    for (int y = 2; y < kLookSide - 2; ++y) {
        for (int x = 2; x < kLookSide - 2; ++x) {
            float sum = 0;
            for (int dy = -1; dy <= 1; ++dy) {
                for (int dx = -1; dx <= 1; ++dx) {
                    sum += at(y + dy, x + dx) / 9;
                }
            }
            const bool isInner = x > 2 && y > 2 && x < kLookSide - 3 && y < kLookSide - 3;
            float& most = isInner ? mark.peak : mark.rim;
            most = std::max(most, std::abs(sum));
        }
    }
    std::array<float, 4> rims{};
    const int end = kLookSide - 1;
    for (int i = 0; i < kLookSide; ++i) {
        rims[0] -= (at(0, i) + at(1, i)) / kLookSide;
        rims[1] -= (at(end, i) + at(end - 1, i)) / kLookSide;
        rims[2] -= (at(i, 0) + at(i, 1)) / kLookSide;
        rims[3] -= (at(i, end) + at(i, end - 1)) / kLookSide;
    }
    mark.framed = std::ranges::min(rims);
    return mark;
}

bool hasEdge(const float* look) {
    constexpr float kSharp = 12; // grey levels from place to place; shade has less
    for (int y = 4; y + 5 < kLookSide; ++y) {
        for (int x = 4; x + 5 < kLookSide; ++x) {
            const float* at = look + y * kLookSide + x;
            if (std::max(std::abs(at[1] - at[0]), std::abs(at[kLookSide] - at[0])) > kSharp) {
                return true;
            }
        }
    }
    return false;
}

bool isSignMean(const float* look, int cells, float peak) {
    constexpr int kFew = 3; // cells; more that look the same are no dirt
    constexpr int kVeryMany = 100;
    constexpr float kFlat = 10; // of means of 100 cells of paper and more, at most 2 was seen
    return (cells > kFew && hasEdge(look)) || (cells > kVeryMany && peak > kFlat);
}

} // namespace otherskein::trace::detail
