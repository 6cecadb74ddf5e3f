#pragma once

#include "drawing/chart_painter.h"
#include "drawing/detail/cell_raster.h"
#include "drawing/detail/pyramid.h"
#include "drawing/detail/sprites.h"

namespace otherskein::drawing::detail {

/// A chart and what is kept to draw it fast; fills frames of pixels. Behind ChartPainter and the
/// small pictures.
class ChartFrame {
  public:
    void setChart(const chart::Grid& grid, const std::vector<chart::Line>& lines,
                  const Paint& paint);
    void setPaint(const Paint& paint);
    void setCells(const chart::Grid& grid, const chart::Area& area);
    void setLines(const std::vector<chart::Line>& lines) { m_lines = lines; }
    void setMarks(const std::vector<Mark>& marks) { m_sprites.setMarks(marks); }
    [[nodiscard]] const chart::Grid& grid() const { return m_grid; }

    /// `margin` cells of ground around the chart, then `surround`.
    void fill(const Frame& frame, const View& view, const Layers& layers, int margin,
              QRgb surround);

  private:
    void useColours(const Layers& layers);
    void fillFar(const Frame& frame, const CellRaster& raster, const QRect& inside);
    void fillNear(const Frame& frame, const View& view, const Layers& layers,
                  const CellRaster& raster, int margin);
    void fillGrid(const Frame& frame, const View& view, const CellRaster& raster);

    chart::Grid m_grid;
    std::vector<chart::Line> m_lines;
    Paint m_plain;
    Paint m_apparent;       ///< of stitched areas, for m_coverage or the rows' own
    double m_coverage = -1; ///< none yet
    Paint m_far;            ///< what the pyramid is painted in
    Pyramid m_pyramid;
    Sprites m_sprites;
};

} // namespace otherskein::drawing::detail
