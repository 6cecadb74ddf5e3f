#include "drawing/chart_painter.h"

#include "drawing/detail/chart_frame.h"

#include <QPainter>

namespace otherskein::drawing {

namespace {

constexpr int kMargin = 3; ///< cells of ground around the chart

/// Whole device pixels that hold all of a logical rectangle.
QRect deviceRect(const QRectF& logical, double pixelRatio) {
    constexpr double kRounding = 1e-6; // so that 10 · 1.5 is 15
    const int left = static_cast<int>(std::floor(logical.left() * pixelRatio + kRounding));
    const int top = static_cast<int>(std::floor(logical.top() * pixelRatio + kRounding));
    const int right = static_cast<int>(std::ceil(logical.right() * pixelRatio - kRounding));
    const int bottom = static_cast<int>(std::ceil(logical.bottom() * pixelRatio - kRounding));
    return QRect(left, top, right - left, bottom - top);
}

} // namespace

struct ChartPainter::Private {
    detail::ChartFrame chart;
    QImage pixels; ///< kept from frame to frame

    detail::Frame frameOf(const QRect& area) {
        if (pixels.width() < area.width() || pixels.height() < area.height()) {
            pixels = QImage(area.size().expandedTo(pixels.size()), QImage::Format_RGB32);
        }
        return {reinterpret_cast<QRgb*>(pixels.bits()),
                pixels.bytesPerLine() / static_cast<qsizetype>(sizeof(QRgb)), area};
    }
};

ChartPainter::ChartPainter() : m_private(std::make_unique<Private>()) {}
ChartPainter::~ChartPainter() = default;
ChartPainter::ChartPainter(ChartPainter&&) noexcept = default;
ChartPainter& ChartPainter::operator=(ChartPainter&&) noexcept = default;

void ChartPainter::setChart(const chart::Chart& chart, const Paint& paint) {
    m_private->chart.setChart(chart.grid, chart.lines, paint);
}

void ChartPainter::setPaint(const Paint& paint) {
    m_private->chart.setPaint(paint);
}

void ChartPainter::setCells(const chart::Grid& grid, const chart::Area& area) {
    m_private->chart.setCells(grid, area);
}

void ChartPainter::setLines(const std::vector<chart::Line>& lines) {
    m_private->chart.setLines(lines);
}

void ChartPainter::setMarks(const std::vector<Mark>& marks) {
    m_private->chart.setMarks(marks);
}

const chart::Grid& ChartPainter::grid() const {
    return m_private->chart.grid();
}

void ChartPainter::paint(QPainter& painter, const View& view, const Layers& layers,
                         const QRectF& clip, const QColor& surround) {
    const QRectF seen = clip & QRectF(QPointF(0, 0), view.size);
    const QRect area = deviceRect(seen, view.pixelRatio);
    if (area.isEmpty()) {
        return;
    }
    const detail::Frame frame = m_private->frameOf(area);
    m_private->chart.fill(frame, view, layers, kMargin, surround.rgb());
    painter.save();
    painter.setClipRect(seen, Qt::IntersectClip);
    // One pixel of the picture is one of the device: nothing is resampled.
    painter.scale(1 / view.pixelRatio, 1 / view.pixelRatio);
    painter.drawImage(area.topLeft(), m_private->pixels, QRect(QPoint(0, 0), area.size()));
    painter.restore();
}

} // namespace otherskein::drawing
