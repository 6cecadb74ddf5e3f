#pragma once

#include "drawing/cloth.h"
#include "drawing/flat.h"
#include "drawing/symbols.h"

#include <QPointF>
#include <QSizeF>

#include <memory>
#include <optional>

class QPainter;

namespace otherskein::drawing {

/// Which part of the chart is seen, and how large.
struct View {
    double cell = 8; ///< side of a cell, logical pixels
    QPointF origin;  ///< where the chart's top left corner lies in the widget, logical pixels
    QSizeF size;     ///< of the widget
    double pixelRatio = 1;

    bool operator==(const View&) const = default;
};

/// Zoom that stays steady under the pointer: the view with cells of `cell` pixels in which the
/// chart's point under `fixed` (widget coordinates) stays where it is.
[[nodiscard]] View zoomed(const View& view, double cell, const QPointF& fixed);
/// The whole chart centred with a margin.
[[nodiscard]] View fitted(const chart::Grid& grid, const QSizeF& size, double margin = 16);
/// From a chart of 2,000 cells in a small window to one cell that fills it.
inline constexpr double kLeastCell = 0.1;
inline constexpr double kMostCell = 96;
[[nodiscard]] QPointF toCells(const View& view, const QPointF& widgetPoint);
[[nodiscard]] QPointF fromCells(const View& view, const QPointF& cells);

/// What is drawn besides the stitches. What would be too small to read is left out by itself.
struct Layers {
    bool stitches = true;  ///< crosses on cloth, whole from 7 device px a cell; else flat
    bool symbols = false;  ///< flat cells with a mark each
    bool grid = true;      ///< lines every cell from 5 px, bolder every ten from 0.8 px
    bool lines = true;     ///< backstitch
    double coverage = 0.9; ///< share of a cell that a cross covers, 0..1, unless Paint::cover says
    Cloth cloth = {};
    /// Of backstitch, in cells: one strand is 0.4 mm · strands over the cell's side. At least one
    /// device pixel is drawn. 0: not known, a middling thread.
    double lineWidth = 0;
    bool operator==(const Layers&) const = default;
    // Flat cells are in the thread's own colour without `stitches` or with `symbols`; with
    // `stitches` alone in the apparent colour of a stitched area, out of which crosses grow from 3
    // to 7 device pixels a cell, so that zooming shows no jump.
};

/// Draws a chart at any zoom fast enough to follow the hand: keeps a pyramid of flat pictures and,
/// a key row, pictures of its stitch in the size last asked for.
/// A frame of 1,000 × 1,000 stitches in a 1280 × 800 window takes under 16 ms, at every zoom.
class ChartPainter {
  public:
    ChartPainter();
    ~ChartPainter();
    ChartPainter(ChartPainter&&) noexcept;
    ChartPainter& operator=(ChartPainter&&) noexcept;

    /// Everything anew.
    void setChart(const chart::Chart& chart, const Paint& paint);
    /// Other colours for the same grid: under 16 ms at 1,000 × 1,000.
    void setPaint(const Paint& paint);
    /// Cells of `area` have changed; `grid` is the whole new grid of the same size.
    void setCells(const chart::Grid& grid, const chart::Area& area);
    void setLines(const std::vector<chart::Line>& lines);
    /// Marks in the order of the key.
    void setMarks(const std::vector<Mark>& marks);

    [[nodiscard]] const chart::Grid& grid() const;
    /// Paints all of the widget inside `clip` (logical pixels): chart, ground around it up to the
    /// margin of `ground`, nothing outside the chart but `surround`.
    void paint(QPainter& painter, const View& view, const Layers& layers, const QRectF& clip,
               const QColor& surround);

  private:
    struct Private;
    std::unique_ptr<Private> m_private;
};

/// The outlines of areas (motifs), drawn over a chart: one line between different labels, with a
/// light and a dark side so that it is seen on every colour. `areaOf` as in chart/neighbours.h.
/// Only cells inside the view are looked at; from 2 px a cell on.
void paintOutlines(QPainter& painter, const View& view, std::span<const std::uint32_t> areaOf,
                   int columns, int rows, std::optional<std::uint32_t> only = std::nullopt);

} // namespace otherskein::drawing
