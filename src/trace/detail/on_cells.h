#pragma once

#include "trace/detail/half_lines.h"
#include "trace/detail/path_lattice.h"

namespace otherskein::trace::detail {

/// A path whose lines all go from corner to corner, or middles.
struct CellPath {
    const PaintedPath* path = nullptr;
    std::vector<HalfLine> lines;
    double width = 0; ///< cells
};

/// Lays a page's paths over the cells of a grid.
class OnCells {
  public:
    OnCells(const cv::Matx33d& toCells, int columns, int rows);

    /// A path whose lines all lie in the grid and begin and end where backstitch may.
    [[nodiscard]] std::optional<CellPath> of(const PaintedPath& path) const;

    [[nodiscard]] double cells(double points) const { return points * m_scale; }

    /// How long those of its lines in the grid are that are no symbols' strokes.
    [[nodiscard]] double longLength(const PaintedPath& path) const;

    /// The place in half cells that a round path is around; not the middle of a cell, where a
    /// symbol is.
    [[nodiscard]] std::optional<cv::Point> knotAt(const PaintedPath& path) const;

    /// Whether it is small and lies over the border in part: no symbol does.
    [[nodiscard]] bool isOverEdge(const cv::Rect2d& box) const;

    /// Whether it lies along the border only.
    [[nodiscard]] bool isFrame(const CellPath& path) const;

    /// Whether all lines along the grid's are of some paths, but for a few that go through: a line
    /// of which a part were taken away would look like a mark of the cells that it is left in.
    [[nodiscard]] bool areAllTold(const PagePaths& page, const std::set<PathPlace>& told) const;

  private:
    [[nodiscard]] std::optional<cv::Point> halfPlace(const cv::Point2d& point, double near) const;

    [[nodiscard]] std::optional<HalfLine> halfLine(const PathLine& line) const;

    static HalfLine ordered(const cv::Point& one, const cv::Point& other);

    cv::Matx33d m_toCells;
    double m_scale = 1;
    int m_columns;
    int m_rows;
};

} // namespace otherskein::trace::detail
