#pragma once

#include <cassert>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <utility>
#include <vector>

namespace otherskein::chart {

/// A place in the grid, from 0, from the top left.
struct Cell {
    int column = 0;
    int row = 0;

    bool operator==(const Cell&) const = default;
};

/// Cells of a rectangle: `columns` × `rows` from `left`, `top`.
struct Area {
    int left = 0;
    int top = 0;
    int columns = 0;
    int rows = 0;

    [[nodiscard]] bool isEmpty() const { return columns <= 0 || rows <= 0; }
    bool operator==(const Area&) const = default;
};

/// Which row of the key a stitch names; kBare where there is no stitch.
using KeyIndex = std::uint16_t;
inline constexpr KeyIndex kBare = std::numeric_limits<KeyIndex>::max();

inline constexpr int kMostColumns = 2000;
inline constexpr int kMostRows = 2000;
inline constexpr std::size_t kMostKeyRows = 300;

/// The stitches of a chart, row by row from the top.
class Grid {
  public:
    Grid() = default;
    /// All bare. Sizes are not negative (asserted).
    Grid(int columns, int rows)
        : Grid(columns, rows,
               std::vector<KeyIndex>(
                   static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), kBare)) {}
    /// `cells` holds columns × rows indices (asserted).
    Grid(int columns, int rows, std::vector<KeyIndex> cells)
        : m_columns(columns), m_rows(rows), m_cells(std::move(cells)) {
        assert(columns >= 0 && rows >= 0);
        assert(m_cells.size() ==
               static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    }

    [[nodiscard]] int columns() const { return m_columns; }
    [[nodiscard]] int rows() const { return m_rows; }
    [[nodiscard]] bool contains(const Cell& cell) const {
        return cell.column >= 0 && cell.column < m_columns && cell.row >= 0 && cell.row < m_rows;
    }
    [[nodiscard]] std::size_t indexOf(const Cell& cell) const {
        assert(contains(cell));
        return static_cast<std::size_t>(cell.row) * static_cast<std::size_t>(m_columns) +
               static_cast<std::size_t>(cell.column);
    }
    [[nodiscard]] Cell cellAt(std::size_t index) const {
        return {static_cast<int>(index % static_cast<std::size_t>(m_columns)),
                static_cast<int>(index / static_cast<std::size_t>(m_columns))};
    }
    [[nodiscard]] KeyIndex at(const Cell& cell) const { return m_cells[indexOf(cell)]; }
    void set(const Cell& cell, KeyIndex key) { m_cells[indexOf(cell)] = key; }

    [[nodiscard]] std::span<const KeyIndex> cells() const { return m_cells; }
    [[nodiscard]] std::span<KeyIndex> cells() { return m_cells; }

    bool operator==(const Grid&) const = default;

  private:
    int m_columns = 0;
    int m_rows = 0;
    std::vector<KeyIndex> m_cells;
};

} // namespace otherskein::chart
