#pragma once

#include "chart/grid.h"
#include "chart/key.h"

#include <vector>

namespace otherskein::chart {

/// One backstitch line between two corners, mid-edges or middles of cells. In half cells from the
/// top left corner, so that halves are whole numbers: the corner of cell (1, 0) is 2, 0.
struct Line {
    int x1 = 0;
    int y1 = 0;
    int x2 = 0;
    int y2 = 0;
    KeyIndex key = 0;

    bool operator==(const Line&) const = default;
};

inline constexpr std::size_t kMostLines = 100'000;

/// What is stitched: a grid of stitches, the key that they name, backstitch lines over them.
/// Every index in `grid` and `lines` is kBare (grid only) or a row of `key`.
struct Chart {
    QString name;
    Grid grid;
    Key key;
    std::vector<Line> lines;

    bool operator==(const Chart&) const = default;
    /// For tests and readers: indices lie in the key, lines on the grid, stitch counts are true, no
    /// two rows of the key share a pixel.
    [[nodiscard]] bool isConsistent() const;
};

/// Stitches of each key row.
[[nodiscard]] std::vector<int> stitchCounts(const Grid& grid, std::size_t keyRows);

/// Sets each row's `stitches` to the truth.
void recount(Chart& chart);

} // namespace otherskein::chart
