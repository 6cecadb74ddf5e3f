#include "chart/chart.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace otherskein::chart {

std::vector<int> stitchCounts(const Grid& grid, std::size_t keyRows) {
    std::vector<int> counts(keyRows, 0);
    for (const KeyIndex key : grid.cells()) {
        if (key != kBare) {
            assert(key < keyRows);
            ++counts[key];
        }
    }
    return counts;
}

void recount(Chart& chart) {
    const std::vector<int> counts = stitchCounts(chart.grid, chart.key.size());
    for (std::size_t i = 0; i < counts.size(); ++i) {
        chart.key[i].stitches = counts[i];
    }
}

bool Chart::isConsistent() const {
    const auto known = [&](KeyIndex index) { return index < key.size(); };
    if (!std::ranges::all_of(grid.cells(),
                             [&](KeyIndex index) { return index == kBare || known(index); })) {
        return false;
    }
    const auto onGrid = [&](int x, int y) {
        return x >= 0 && x <= 2 * grid.columns() && y >= 0 && y <= 2 * grid.rows();
    };
    if (!std::ranges::all_of(lines, [&](const Line& line) {
            return known(line.key) && onGrid(line.x1, line.y1) && onGrid(line.x2, line.y2) &&
                   (line.x1 != line.x2 || line.y1 != line.y2);
        })) {
        return false;
    }
    std::set<std::tuple<int, int, int>> pixels;
    for (const KeyRow& row : key) {
        if (!pixels.emplace(row.pixel.r, row.pixel.g, row.pixel.b).second) {
            return false;
        }
    }
    const std::vector<int> counts = stitchCounts(grid, key.size());
    return std::ranges::equal(counts, key, {}, {}, &KeyRow::stitches);
}

} // namespace otherskein::chart
