#pragma once

#include "trace/detail/on_cells.h"

#include <tuple>

namespace otherskein::trace::detail {

/// All lines of one look, judged together.
class LinesOfLook {
  public:
    LinesOfLook(int columns, int rows, bool hasAreas);

    void add(const CellPath& path);

    /// Lines that end elsewhere, as pieces of a broken grid's do.
    void addOdd(double length) { m_odd += length; }

    /// Whether any of it is longer than a symbol's stroke.
    [[nodiscard]] bool hasLong() const;

    /// Ends where backstitch may, and neither the grid's nor symbols' nor marks in corners.
    [[nodiscard]] bool isBackstitch() const;

    /// The grid's own lines, or edges of cells.
    [[nodiscard]] bool isOfGrid() const;

    [[nodiscard]] const std::vector<CellPath>& paths() const { return m_paths; }

    [[nodiscard]] std::set<HalfLine> allLines() const;

  private:
    using Side = std::tuple<bool, int, int>; ///< upright?, its line, its place along it

    /// Sides of cells that lines lie along.
    [[nodiscard]] std::set<Side> sides() const;

    /// Whether most of it goes from one end of the grid to the other as the grid's own lines do:
    /// both ways, or by the same step again and again.
    [[nodiscard]] bool isGrid() const;

    /// Whether they are areas along one side of a cell each, as a table's borders are.
    [[nodiscard]] bool areBorders() const;

    /// Length of sides that belong to a cell with all four.
    [[nodiscard]] double boxed() const;

    /// Whether most of what lies within cells is in the next cell too, or crosses itself there: as
    /// symbols do whose strokes go from corner to corner.
    [[nodiscard]] bool areSymbols() const;

    std::vector<CellPath> m_paths;
    double m_length = 0;
    double m_odd = 0;
    int m_columns;
    int m_rows;
    bool m_hasAreas;
};

} // namespace otherskein::trace::detail
