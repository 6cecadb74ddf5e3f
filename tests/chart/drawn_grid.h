#pragma once

#include "chart/grid.h"

#include <map>
#include <random>
#include <string>
#include <vector>

namespace otherskein::chart {

/// A grid drawn with characters: '.' is bare, '#' and 'A' the first row of the key, 'B' the second.
inline Grid drawnGrid(const std::vector<std::string>& rows) {
    const std::size_t columns = rows.empty() ? 0 : rows.front().size();
    Grid grid(static_cast<int>(columns), static_cast<int>(rows.size()));
    for (std::size_t y = 0; y < rows.size(); ++y) {
        for (std::size_t x = 0; x < columns; ++x) {
            const char c = rows[y].at(x);
            if (c != '.') {
                grid.set({static_cast<int>(x), static_cast<int>(y)},
                         static_cast<KeyIndex>(c == '#' ? 0 : c - 'A'));
            }
        }
    }
    return grid;
}

/// Noise: a share of cells is stitched, in `keys` rows; with `grain` above 1 in blocks.
inline Grid noise(int columns, int rows, double stitched, int keys, int grain, unsigned seed) {
    std::mt19937 random(seed);
    const auto below = [&](int limit) {
        return static_cast<int>(random() % static_cast<unsigned>(limit));
    };
    std::map<std::pair<int, int>, KeyIndex> blocks;
    Grid grid(columns, rows);
    for (int y = 0; y < rows; ++y) {
        for (int x = 0; x < columns; ++x) {
            const auto [block, isNew] = blocks.try_emplace({x / grain, y / grain}, kBare);
            if (isNew && below(1000) < stitched * 1000) {
                block->second = static_cast<KeyIndex>(below(keys));
            }
            grid.set({x, y}, block->second);
        }
    }
    return grid;
}

/// Noise of many kinds, some of it with odd shapes.
inline std::vector<Grid> randomGrids() {
    std::vector<Grid> grids;
    unsigned seed = 1;
    for (const double stitched : {0.05, 0.2, 0.5, 0.8}) {
        for (const int keys : {1, 3}) {
            for (const int grain : {1, 2, 5}) {
                grids.push_back(noise(37, 29, stitched, keys, grain, seed++));
                grids.push_back(noise(3, 50, stitched, keys, grain, seed++));
            }
        }
    }
    return grids;
}

inline Grid transposed(const Grid& grid) {
    Grid turned(grid.rows(), grid.columns());
    for (int y = 0; y < grid.rows(); ++y) {
        for (int x = 0; x < grid.columns(); ++x) {
            turned.set({y, x}, grid.at({x, y}));
        }
    }
    return turned;
}

inline Grid mirrored(const Grid& grid) {
    Grid other(grid.columns(), grid.rows());
    for (int y = 0; y < grid.rows(); ++y) {
        for (int x = 0; x < grid.columns(); ++x) {
            other.set({grid.columns() - 1 - x, y}, grid.at({x, y}));
        }
    }
    return other;
}

} // namespace otherskein::chart
