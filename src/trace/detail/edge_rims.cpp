#include "trace/detail/edge_rims.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kLeast = 4; // cells from which something repeats
constexpr float kNothing = 40;    // px · grey levels: less is no ink

/// The part of a side's excess that lies within one of its two cells, by distance from the side.
struct Half {
    EdgeExcess* edge = nullptr;
    bool isAfter = false; ///< the cell lies right of the side or below it

    [[nodiscard]] int index(int distance) const {
        const int t = isAfter ? distance : -1 - distance;
        const int i = t - edge->from;
        return i < static_cast<int>(edge->over.size()) ? i : -1;
    }
    [[nodiscard]] Half opposite() const { return {edge, !isAfter}; }
    [[nodiscard]] float mass() const {
        float sum = 0;
        for (int distance = 0;; ++distance) {
            const int i = index(distance);
            if (i < 0) {
                return sum;
            }
            sum += static_cast<float>(cv::norm(edge->over[static_cast<std::size_t>(i)]));
        }
    }
};

/// The halves that show what the symbol itself has near that side. Lines are seldom drawn between
/// two like cells; elsewhere a line lies to both sides, what is the symbol's own to one.
std::vector<Half> telling(const std::vector<Half>& between, const std::vector<Half>& others) {
    if (between.size() >= kLeast) {
        return between;
    }
    std::vector<Half> result;
    for (const Half& half : others) {
        if (half.opposite().mass() < std::max(kNothing, half.mass() / 2)) {
            result.push_back(half);
        }
    }
    if (result.size() < kLeast) {
        result.clear();
    }
    return result;
}

void takeRim(const std::vector<Half>& telling, const std::vector<Half>& halves) {
    constexpr int kMostReach = 16;
    std::array<cv::Vec3f, kMostReach> usual{};
    std::vector<float> values;
    for (int distance = 0; distance < kMostReach; ++distance) {
        for (int c = 0; c < 3; ++c) {
            values.clear();
            for (const Half& half : telling) {
                const int i = half.index(distance);
                values.push_back(i < 0 ? 0 : half.edge->over[static_cast<std::size_t>(i)][c]);
            }
            usual[static_cast<std::size_t>(distance)][c] = medianOf(values);
        }
    }
    for (const Half& half : halves) {
        // Where the grid's bold line hides the rim, nothing is to be taken.
        float with = 0;
        float without = 0;
        for (int distance = 0; distance < kMostReach; ++distance) {
            if (const int i = half.index(distance); i >= 0) {
                const cv::Vec3f& over = half.edge->over[static_cast<std::size_t>(i)];
                with += static_cast<float>(cv::norm(over));
                without +=
                    static_cast<float>(cv::norm(over - usual[static_cast<std::size_t>(distance)]));
            }
        }
        for (int distance = 0; without < with && distance < kMostReach; ++distance) {
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
    const int rows = static_cast<int>(like.of.size()) / columns;
    // The halves' ink is looked at before any rim is taken from them.
    std::vector<std::pair<std::vector<Half>, std::vector<Half>>> work;
    for (const std::vector<int>& cells : like.members) {
        if (cells.size() < kLeast) {
            continue;
        }
        for (int side = 0; side < 4; ++side) {
            std::vector<Half> all;
            std::vector<Half> between;
            for (const int cell : cells) {
                const int column = cell % columns;
                const int row = cell / columns;
                const bool isAfter = side % 2 == 0;
                const int step = isAfter ? -1 : 1;
                EdgeExcess& edge = side < 2 ? upright.at(column + (isAfter ? 0 : 1), row)
                                            : level.at(row + (isAfter ? 0 : 1), column);
                all.push_back({&edge, isAfter});
                const int nextColumn = column + (side < 2 ? step : 0);
                const int nextRow = row + (side < 2 ? 0 : step);
                if (nextColumn >= 0 && nextColumn < columns && nextRow >= 0 && nextRow < rows) {
                    const auto next = static_cast<std::size_t>(nextRow * columns + nextColumn);
                    if (like.of[next] == like.of[static_cast<std::size_t>(cell)]) {
                        between.push_back(all.back());
                    }
                }
            }
            if (std::vector<Half> some = telling(between, all); !some.empty()) {
                work.emplace_back(std::move(some), std::move(all));
            }
        }
    }
    for (const auto& [some, all] : work) {
        takeRim(some, all);
    }
    for (EdgeLines* lines : {&upright, &level}) {
        for (EdgeExcess& edge : lines->edges) {
            edge.measure();
        }
    }
}

} // namespace otherskein::trace::detail
