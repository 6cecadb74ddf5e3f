#include "drawing/chart_painter.h"
#include "drawing/detail/cell_raster.h"

#include "chart/motifs.h"

#include <QImage>
#include <QPainter>

#include <cassert>

namespace otherskein::drawing {

namespace {

constexpr double kLeastOutlined = 2; ///< logical pixels a cell
constexpr QRgb kDark = 0xd8202020;   // premultiplied: nearly opaque, so seen on every colour
constexpr QRgb kLight = 0xe6e6e6e6;

/// What the labels say, with no label outside the chart.
class Labels {
  public:
    Labels(std::span<const std::uint32_t> of, int columns, int rows,
           std::optional<std::uint32_t> only)
        : m_of(of), m_columns(columns), m_rows(rows), m_only(only) {}

    [[nodiscard]] bool part(int column, int row, int otherColumn, int otherRow) const {
        const std::uint32_t one = at(column, row);
        const std::uint32_t other = at(otherColumn, otherRow);
        return one != other && (!m_only || one == *m_only || other == *m_only);
    }

  private:
    [[nodiscard]] std::uint32_t at(int column, int row) const {
        const bool isInside = column >= 0 && column < m_columns && row >= 0 && row < m_rows;
        return isInside ? m_of[static_cast<std::size_t>(row) * static_cast<std::size_t>(m_columns) +
                               static_cast<std::size_t>(column)]
                        : chart::kNoMotif;
    }

    std::span<const std::uint32_t> m_of;
    int m_columns;
    int m_rows;
    std::optional<std::uint32_t> m_only;
};

void fillRect(const detail::Frame& frame, const QRect& rect, QRgb colour) {
    const QRect inside = rect & frame.area;
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        QRgb* line = frame.line(y) + (inside.left() - frame.left());
        std::fill(line, line + inside.width(), colour);
    }
}

/// One side of the line at a time, all light ones first: dark ones stay whole where they cross.
void paintSide(const detail::Frame& frame, const detail::CellRaster& raster, const Labels& labels,
               const detail::Run& columns, const detail::Run& rows, int pen, QRgb colour) {
    const int before = colour == kDark ? pen : 0;
    for (int row = rows.first; row <= rows.end; ++row) {
        const int top = raster.y(row);
        const int bottom = raster.y(row + 1);
        for (int column = columns.first; column <= columns.end; ++column) {
            if (row < rows.end && labels.part(column - 1, row, column, row)) {
                fillRect(frame, {raster.x(column) - before, top - before, pen, bottom - top + pen},
                         colour);
            }
            if (column < columns.end && labels.part(column, row - 1, column, row)) {
                const int left = raster.x(column);
                fillRect(frame,
                         {left - before, top - before, raster.x(column + 1) - left + pen, pen},
                         colour);
            }
        }
    }
}

} // namespace

void paintOutlines(QPainter& painter, const View& view, std::span<const std::uint32_t> areaOf,
                   int columns, int rows, std::optional<std::uint32_t> only) {
    assert(areaOf.size() == static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    const QRect area(0, 0, static_cast<int>(std::ceil(view.size.width() * view.pixelRatio)),
                     static_cast<int>(std::ceil(view.size.height() * view.pixelRatio)));
    if (view.cell < kLeastOutlined || areaOf.empty() || area.isEmpty()) {
        return;
    }
    QImage overlay(area.size(), QImage::Format_ARGB32_Premultiplied);
    overlay.fill(0);
    const detail::Frame frame{reinterpret_cast<QRgb*>(overlay.bits()),
                              overlay.bytesPerLine() / static_cast<qsizetype>(sizeof(QRgb)), area};
    const detail::CellRaster raster(view);
    const detail::Run across = frame.columns(raster, 0, columns);
    const detail::Run down = frame.rows(raster, 0, rows);
    const int pen = std::max(1, static_cast<int>(std::lround(view.pixelRatio)));
    const Labels labels(areaOf, columns, rows, only);
    paintSide(frame, raster, labels, across, down, pen, kLight);
    paintSide(frame, raster, labels, across, down, pen, kDark);
    painter.save();
    painter.scale(1 / view.pixelRatio, 1 / view.pixelRatio);
    painter.drawImage(area.topLeft(), overlay);
    painter.restore();
}

} // namespace otherskein::drawing
