#include "app/tracing/page_picture.h"

#include "drawing/flat.h"

#include <QPainter>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr int kLeastLevel = 256; // px; a smaller picture need not be halved again
constexpr double kGlanceEdge = 0.1;

} // namespace

PagePicture::PagePicture(const QImage& picture, int cell) : m_cell(cell) {
    assert(cell >= 1);
    if (picture.isNull()) {
        return;
    }
    m_levels.push_back(picture.convertToFormat(QImage::Format_RGB32));
    while (std::max(m_levels.back().width(), m_levels.back().height()) > kLeastLevel) {
        m_levels.push_back(drawing::halved(m_levels.back()));
    }
}

PagePicture PagePicture::fromBytes(const QByteArray& bytes, int cell) {
    return {QImage::fromData(bytes), cell};
}

std::size_t PagePicture::levelFor(double pixelsACell) const {
    std::size_t level = 0;
    double shown = m_cell;
    while (level + 1 < m_levels.size() && shown / 2 >= pixelsACell) {
        shown /= 2;
        ++level;
    }
    return level;
}

void PagePicture::paintPart(QPainter& painter, const QRectF& target, const QRectF& cells,
                            double pixelsACell) const {
    const std::size_t level = levelFor(pixelsACell);
    const double scale = m_cell / std::pow(2.0, static_cast<double>(level));
    const QRectF source(cells.topLeft() * scale, cells.size() * scale);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(target, m_levels[level], source);
}

void PagePicture::paint(QPainter& painter, const drawing::View& view, const QRectF& clip) const {
    if (isNull()) {
        return;
    }
    const QImage& whole = m_levels.front();
    const QRectF all(0, 0, double{1} * whole.width() / m_cell, double{1} * whole.height() / m_cell);
    const QRectF seen =
        QRectF(drawing::toCells(view, clip.topLeft()), drawing::toCells(view, clip.bottomRight()))
            .adjusted(-1, -1, 1, 1);
    // Whole pixels of the picture, so that parts that are drawn one by one meet without a seam.
    const double step = 1.0 / m_cell;
    QRectF part = seen.intersected(all);
    if (part.isEmpty()) {
        return;
    }
    part =
        QRectF(QPointF(std::floor(part.left() / step) * step, std::floor(part.top() / step) * step),
               QPointF(std::min(all.right(), std::ceil(part.right() / step) * step),
                       std::min(all.bottom(), std::ceil(part.bottom() / step) * step)));
    paintPart(painter,
              QRectF(drawing::fromCells(view, part.topLeft()),
                     drawing::fromCells(view, part.bottomRight())),
              part, view.cell * view.pixelRatio);
}

void PagePicture::paintCell(QPainter& painter, const QRectF& target, const chart::Cell& cell,
                            double margin) const {
    painter.fillRect(target, Qt::white);
    if (isNull()) {
        return;
    }
    const QRectF cells(cell.column - margin, cell.row - margin, 1 + 2 * margin, 1 + 2 * margin);
    const QImage& whole = m_levels.front();
    const QRectF all(0, 0, double{1} * whole.width() / m_cell, double{1} * whole.height() / m_cell);
    const QRectF part = cells.intersected(all);
    if (part.isEmpty()) {
        return;
    }
    const double across = target.width() / cells.width();
    const double down = target.height() / cells.height();
    const QRectF onto(target.left() + (part.left() - cells.left()) * across,
                      target.top() + (part.top() - cells.top()) * down, part.width() * across,
                      part.height() * down);
    const double ratio = painter.device() != nullptr ? painter.device()->devicePixelRatioF() : 1;
    paintPart(painter, onto, part, across * ratio);
}

PagePicture::Glance PagePicture::glanceAt(const chart::Cell& cell) const {
    Glance glance{};
    constexpr float kGrey = 128;
    glance.fill(kGrey);
    if (isNull()) {
        return glance;
    }
    const std::size_t level = levelFor(kGlance);
    const QImage& picture = m_levels[level];
    const double scale = m_cell / std::pow(2.0, static_cast<double>(level));
    auto value = glance.begin();
    for (int y = 0; y < kGlance; ++y) {
        for (int x = 0; x < kGlance; ++x) {
            const auto along = [](int step) {
                return kGlanceEdge + (1 - 2 * kGlanceEdge) * (step + 0.5) / kGlance;
            };
            const int px = static_cast<int>((cell.column + along(x)) * scale);
            const int py = static_cast<int>((cell.row + along(y)) * scale);
            if (picture.valid(px, py)) {
                const QRgb pixel = picture.pixel(px, py);
                value[0] = static_cast<float>(qRed(pixel));
                value[1] = static_cast<float>(qGreen(pixel));
                value[2] = static_cast<float>(qBlue(pixel));
            }
            value += 3;
        }
    }
    return glance;
}

double difference(const PagePicture::Glance& one, const PagePicture::Glance& other) {
    double sum = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        const double apart = double{one[i]} - double{other[i]};
        sum += apart * apart;
    }
    return sum;
}

} // namespace otherskein::app
