#include "trace/detail/passing_marks.h"

#include "trace/detail/cell_marks.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kDepth = 3;         // places from a side that a strip is taken over
constexpr float kAllAlong = 0.6F; // of the darkest place, and a side is dark all along
constexpr float kGoesOn = 0.5F;   // of the darkness, and it goes on in the next cell
constexpr float kHides = 0.6F;    // of the darkness: on a ground so dark nothing can be seen
constexpr int kTimes = 3;         // as many marks that go on as those that end
constexpr std::size_t kNoCell = ~std::size_t{0};

/// Index in a look of a place along a side and so far from it: right, below, left, above.
int placeAt(std::size_t side, int along, int depth) {
    const int far = kLookSide - 1 - depth;
    switch (side) {
    case 0:
        return along * kLookSide + far;
    case 1:
        return far * kLookSide + along;
    case 2:
        return along * kLookSide + depth;
    default:
        return depth * kLookSide + along;
    }
}

template <typename Strip>
float lowQuarter(const Strip& strip) {
    Strip sorted = strip;
    std::ranges::nth_element(sorted, sorted.begin() + kLookSide / 4);
    return sorted[kLookSide / 4];
}

} // namespace

PassingMarks::PassingMarks(const cv::Mat& looks, std::span<const LookGrid> grids,
                           const Groups& groups, const float* paper, float faint)
    : m_groups(groups), m_paper(paper), m_faint(faint),
      m_strips(4 * static_cast<std::size_t>(looks.rows)),
      m_counts(static_cast<std::size_t>(groups.count)) {
    const std::vector<float>& weight = lookWeights();
    for (int i = 0; i < looks.rows; ++i) {
        const float* look = looks.ptr<float>(i);
        for (std::size_t side = 0; side < 4; ++side) {
            Strip& out = m_strips[4 * static_cast<std::size_t>(i) + side];
            for (int along = 0; along < kLookSide; ++along) {
                float dark = 0;
                float weights = 0;
                for (int depth = 0; depth < kDepth; ++depth) {
                    const int at = placeAt(side, along, depth);
                    dark += paper[at] - look[at];
                    weights += weight[static_cast<std::size_t>(at)];
                }
                out[static_cast<std::size_t>(along)] = dark / weights;
            }
        }
    }
    for (const LookGrid& grid : grids) {
        for (int row = 0; row < grid.rows; ++row) {
            for (int column = 0; column < grid.columns; ++column) {
                const auto at = static_cast<std::size_t>(grid.first + row * grid.columns + column);
                const auto below = at + static_cast<std::size_t>(grid.columns);
                const auto above = at - static_cast<std::size_t>(grid.columns);
                compare(at, 0, column + 1 < grid.columns ? at + 1 : kNoCell);
                compare(at, 1, row + 1 < grid.rows ? below : kNoCell);
                compare(at, 2, column > 0 ? at - 1 : kNoCell);
                compare(at, 3, row > 0 ? above : kNoCell);
            }
        }
    }
}

void PassingMarks::compare(std::size_t cell, std::size_t side, std::size_t next) {
    const Strip& own = strip(cell, side);
    float most = 0;
    for (std::size_t i = 1; i + 1 < own.size(); ++i) {
        most = std::max(most, (own[i - 1] + own[i] + own[i + 1]) / 3);
    }
    if (most < m_faint) {
        return;
    }
    Count& count = m_counts[static_cast<std::size_t>(m_groups.of[cell])];
    const float least = lowQuarter(own);
    const bool isAllAlong = least > kAllAlong * most;
    if (next == kNoCell) {
        count.beside += isAllAlong ? 1 : 0; // the grid's own border
        return;
    }
    if (m_groups.of[next] == m_groups.of[cell]) {
        return; // symbols of one kind may touch
    }
    const Strip& other = strip(next, (side + 2) % 4);
    const float ground = lowQuarter(other);
    if (isAllAlong) {
        // A line may lie a little to one side of the border: that it is not here says nothing.
        count.beside += ground > kGoesOn * least ? 1 : 0;
        return;
    }
    if (ground > kHides * most) {
        return;
    }
    float mine = 0;
    float theirs = 0;
    for (std::size_t i = 0; i < own.size(); ++i) {
        if (own[i] > (most + least) / 2) {
            mine += own[i] - least;
            theirs += other[i] - ground;
        }
    }
    ++(theirs > kGoesOn * mine ? count.passing : count.ending);
}

cv::Mat PassingMarks::withoutRuns(const cv::Mat& look) const {
    const std::vector<float>& weight = lookWeights();
    const auto isLess = [](float one, float other) { return std::abs(one) < std::abs(other); };
    cv::Mat result = look.clone();
    auto* out = result.ptr<float>();
    for (const int step : {1, kLookSide}) {
        for (int line = 0; line < kLookSide; ++line) {
            const int first = step == 1 ? line * kLookSide : line;
            std::vector<float> beyond;
            for (int i = 0; i < kLookSide; ++i) {
                const int at = first + i * step;
                beyond.push_back((out[at] - m_paper[at]) / weight[static_cast<std::size_t>(at)]);
            }
            // No more than there is at both ends: a stroke that ends before is a symbol's.
            const float run =
                std::min({(beyond[0] + beyond[1]) / 2,
                          (beyond[kLookSide - 2] + beyond[kLookSide - 1]) / 2, medianOf(beyond)},
                         isLess);
            for (int i = 0; i < kLookSide; ++i) {
                const int at = first + i * step;
                out[at] -= run * weight[static_cast<std::size_t>(at)];
            }
        }
    }
    return result;
}

bool PassingMarks::goOn(std::size_t group) const {
    const Count& count = m_counts[group];
    const int passing = count.beside + count.passing;
    return passing > 0 && passing >= kTimes * count.ending;
}

bool PassingMarks::crosses(std::size_t group) const {
    const Count& count = m_counts[group];
    return count.passing > 1 && count.passing >= kTimes * count.ending;
}

} // namespace otherskein::trace::detail
