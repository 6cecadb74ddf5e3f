#include "trace/detail/overlap.h"

#include <algorithm>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr int kPaper = -1; // all groups of bare cells
constexpr double kInOverlap = 0.8;
constexpr double kSame = 0.9;
constexpr int kLeastCells = 2;
constexpr int kOthers = 3; // joined groups that make a group of one cell believed

/// A group's cells that another piece has too.
struct Shared {
    int cells = 0;
    std::map<int, int> as; ///< by what the other piece says
};

/// Calls `each(one, other)` for looks of the same cell of the chart.
template <typename Each>
void eachSharedCell(std::span<const LookGrid> grids, std::span<const chart::Cell> places,
                    const Each& each) {
    for (std::size_t a = 0; a < grids.size(); ++a) {
        for (std::size_t b = a + 1; b < grids.size(); ++b) {
            const int left = std::max(places[a].column, places[b].column);
            const int top = std::max(places[a].row, places[b].row);
            const int right =
                std::min(places[a].column + grids[a].columns, places[b].column + grids[b].columns);
            const int bottom =
                std::min(places[a].row + grids[a].rows, places[b].row + grids[b].rows);
            const auto look = [&](std::size_t p, int column, int row) {
                return static_cast<std::size_t>(grids[p].first +
                                                (row - places[p].row) * grids[p].columns + column -
                                                places[p].column);
            };
            for (int row = top; row < bottom; ++row) {
                for (int column = left; column < right; ++column) {
                    each(look(a, column, row), look(b, column, row));
                }
            }
        }
    }
}

} // namespace

void joinOverlaps(std::span<const LookGrid> grids, std::span<const chart::Cell> places,
                  Groups& groups, std::vector<GroupLook>& looks) {
    std::vector<Shared> shared(looks.size());
    const auto groupAt = [&](std::size_t look) {
        return static_cast<std::size_t>(groups.of[look]);
    };
    const auto sayingOf = [&](std::size_t group) {
        return looks[group].isBare ? kPaper : static_cast<int>(group);
    };
    eachSharedCell(grids, places, [&](std::size_t one, std::size_t other) {
        for (const auto& [mine, said] : {std::pair{one, other}, {other, one}}) {
            Shared& of = shared[groupAt(mine)];
            ++of.cells;
            ++of.as[sayingOf(groupAt(said))];
        }
    });
    std::vector<std::size_t> order;
    for (std::size_t g = 0; g < looks.size(); ++g) {
        if (!looks[g].isBare && shared[g].cells >= kInOverlap * looks[g].cells &&
            shared[g].cells > 0) {
            order.push_back(g);
        }
    }
    std::ranges::stable_sort(order, std::greater<>(),
                             [&](std::size_t g) { return shared[g].cells; });
    std::vector<int> becomes(looks.size(), 0);
    for (std::size_t g = 0; g < looks.size(); ++g) {
        becomes[g] = static_cast<int>(g);
    }
    int joined = 0;
    for (const std::size_t g : order) {
        const auto& [said, times] =
            *std::ranges::max_element(shared[g].as, {}, [](const auto& as) { return as.second; });
        if (said == static_cast<int>(g) || times < kSame * shared[g].cells ||
            (times < kLeastCells && joined < kOthers)) {
            continue;
        }
        ++joined;
        if (said == kPaper) {
            looks[g].isBare = true;
            continue;
        }
        const auto other = static_cast<std::size_t>(becomes[static_cast<std::size_t>(said)]);
        if (other == g) {
            continue; // joined the other way round already
        }
        looks[other].cells += looks[g].cells;
        looks[g].cells = 0;
        std::ranges::replace(becomes, static_cast<int>(g), static_cast<int>(other));
    }
    for (int& of : groups.of) {
        of = becomes[static_cast<std::size_t>(of)];
    }
}

} // namespace otherskein::trace::detail
