#include "chart/mending.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

namespace otherskein::chart {

std::vector<Cell> cellsBetween(const Cell& from, const Cell& to) {
    const int across = std::abs(to.column - from.column);
    const int down = -std::abs(to.row - from.row);
    const int right = from.column < to.column ? 1 : -1;
    const int below = from.row < to.row ? 1 : -1;
    int error = across + down;
    std::vector<Cell> cells{from};
    while (cells.back() != to) {
        Cell next = cells.back();
        const int twice = 2 * error;
        if (twice >= down) {
            error += down;
            next.column += right;
        }
        if (twice <= across) {
            error += across;
            next.row += below;
        }
        cells.push_back(next);
    }
    return cells;
}

std::vector<Cell> regionOf(const Grid& grid, const Cell& start) {
    const KeyIndex wanted = grid.at(start);
    std::vector<bool> reached(grid.cells().size());
    std::vector<Cell> region{start};
    reached[grid.indexOf(start)] = true;
    for (std::size_t i = 0; i < region.size(); ++i) {
        const Cell at = region[i];
        for (const Cell& next : {Cell{at.column - 1, at.row}, Cell{at.column + 1, at.row},
                                 Cell{at.column, at.row - 1}, Cell{at.column, at.row + 1}}) {
            if (grid.contains(next) && !reached[grid.indexOf(next)] && grid.at(next) == wanted) {
                reached[grid.indexOf(next)] = true;
                region.push_back(next);
            }
        }
    }
    return region;
}

Area setCells(Grid& grid, std::span<const Cell> cells, KeyIndex key) {
    Area changed;
    for (const Cell& cell : cells) {
        if (grid.contains(cell) && grid.at(cell) != key) {
            grid.set(cell, key);
            changed = united(changed, {cell.column, cell.row, 1, 1});
        }
    }
    return changed;
}

Area united(const Area& one, const Area& other) {
    if (one.isEmpty() || other.isEmpty()) {
        return one.isEmpty() ? other : one;
    }
    const int left = std::min(one.left, other.left);
    const int top = std::min(one.top, other.top);
    const int right = std::max(one.left + one.columns, other.left + other.columns);
    const int bottom = std::max(one.top + one.rows, other.top + other.rows);
    return {left, top, right - left, bottom - top};
}

Chart withRowReplaced(const Chart& chart, KeyIndex from, KeyIndex to) {
    assert(from < chart.key.size() && to < chart.key.size());
    Chart after = chart;
    std::ranges::replace(after.grid.cells(), from, to);
    for (Line& line : after.lines) {
        line.key = line.key == from ? to : line.key;
    }
    recount(after);
    return after;
}

bool isUsed(const Chart& chart, KeyIndex row) {
    return std::ranges::find(chart.grid.cells(), row) != chart.grid.cells().end() ||
           std::ranges::find(chart.lines, row, &Line::key) != chart.lines.end();
}

std::vector<int> lineCounts(const Chart& chart) {
    std::vector<int> counts(chart.key.size());
    for (const Line& line : chart.lines) {
        ++counts[line.key];
    }
    return counts;
}

Chart withoutRow(const Chart& chart, KeyIndex row) {
    assert(row < chart.key.size() && !isUsed(chart, row));
    Chart after = chart;
    after.key.erase(after.key.begin() + row);
    for (KeyIndex& cell : after.grid.cells()) {
        if (cell != kBare && cell > row) {
            --cell;
        }
    }
    for (Line& line : after.lines) {
        if (line.key > row) {
            --line.key;
        }
    }
    return after;
}

colour::Srgb8 freePixel(const Key& key, const colour::Srgb8& wanted, std::optional<KeyIndex> but) {
    const auto taken = [&](const colour::Srgb8& pixel) {
        for (std::size_t row = 0; row < key.size(); ++row) {
            if (row != but && key[row].pixel == pixel) {
                return true;
            }
        }
        return false;
    };
    if (!taken(wanted)) {
        return wanted;
    }
    // The cube around the colour grows until it holds a free place; kMostKeyRows end that soon.
    for (int reach = 1;; ++reach) {
        std::multimap<int, colour::Srgb8> near; // by squared distance
        for (int r = -reach; r <= reach; ++r) {
            for (int g = -reach; g <= reach; ++g) {
                for (int b = -reach; b <= reach; ++b) {
                    const int red = wanted.r + r;
                    const int green = wanted.g + g;
                    const int blue = wanted.b + b;
                    if (std::min({red, green, blue}) >= 0 && std::max({red, green, blue}) <= 255) {
                        near.emplace(r * r + g * g + b * b,
                                     colour::Srgb8{static_cast<std::uint8_t>(red),
                                                   static_cast<std::uint8_t>(green),
                                                   static_cast<std::uint8_t>(blue)});
                    }
                }
            }
        }
        for (const auto& [distance, pixel] : near) {
            if (distance <= reach * reach && !taken(pixel)) {
                return pixel;
            }
        }
    }
}

std::optional<MotifIndex> motifUnder(const Motifs& motifs, const CutMotif::Point& from,
                                     const CutMotif::Point& to) {
    constexpr double kSamplesACell = 8;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const int samples = static_cast<int>(std::ceil(length * kSamplesACell)) + 1;
    std::map<MotifIndex, int> through;
    for (int i = 0; i < samples; ++i) {
        const double share = samples > 1 ? static_cast<double>(i) / (samples - 1) : 0;
        const Cell cell{static_cast<int>(std::floor(from.x + share * (to.x - from.x))),
                        static_cast<int>(std::floor(from.y + share * (to.y - from.y)))};
        if (cell.column >= 0 && cell.column < motifs.columns && cell.row >= 0 &&
            cell.row < motifs.rows && motifs.at(cell) != kNoMotif) {
            ++through[motifs.at(cell)];
        }
    }
    const auto most =
        std::ranges::max_element(through, {}, [](const auto& one) { return one.second; });
    return most == through.end() ? std::nullopt : std::optional(most->first);
}

} // namespace otherskein::chart
