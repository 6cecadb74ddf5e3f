#include "trace/detail/edge_rims.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kLeast = 4; // cells from which something repeats

/// The part of a side's excess that lies within one of its two cells, by distance from the side.
struct Half {
    EdgeExcess* edge = nullptr;
    bool isAfter = false; ///< the cell lies right of the side or below it

    [[nodiscard]] int index(int distance) const {
        const int t = isAfter ? distance : -1 - distance;
        const int i = t - edge->from;
        return i < static_cast<int>(edge->over.size()) ? i : -1;
    }
};

void takeRim(const std::vector<Half>& halves) {
    constexpr int kMostReach = 16;
    std::array<cv::Vec3f, kMostReach> usual{};
    std::vector<float> values;
    for (int distance = 0; distance < kMostReach; ++distance) {
        for (int c = 0; c < 3; ++c) {
            values.clear();
            for (const Half& half : halves) {
                const int i = half.index(distance);
                values.push_back(i < 0 ? 0 : half.edge->over[static_cast<std::size_t>(i)][c]);
            }
            usual[static_cast<std::size_t>(distance)][c] = medianOf(values);
        }
    }
    for (const Half& half : halves) {
        for (int distance = 0; distance < kMostReach; ++distance) {
            if (const int i = half.index(distance); i >= 0) {
                const cv::Vec3f& rim = usual[static_cast<std::size_t>(distance)];
                half.edge->over[static_cast<std::size_t>(i)] -= rim;
                half.edge->under[static_cast<std::size_t>(i)] += rim;
            }
        }
    }
}

} // namespace

void takeRims(const LikeCells& like, int columns, EdgeLines& upright, EdgeLines& level) {
    for (const std::vector<int>& cells : like.members) {
        if (cells.size() < kLeast) {
            continue;
        }
        std::array<std::vector<Half>, 4> sides;
        for (const int cell : cells) {
            const int column = cell % columns;
            const int row = cell / columns;
            sides[0].push_back({&upright.at(column, row), true});
            sides[1].push_back({&upright.at(column + 1, row), false});
            sides[2].push_back({&level.at(row, column), true});
            sides[3].push_back({&level.at(row + 1, column), false});
        }
        for (const auto& side : sides) {
            takeRim(side);
        }
    }
    for (EdgeLines* lines : {&upright, &level}) {
        for (EdgeExcess& edge : lines->edges) {
            edge.measure();
        }
    }
}

} // namespace otherskein::trace::detail
