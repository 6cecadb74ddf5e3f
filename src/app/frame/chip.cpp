#include "app/frame/chip.h"

#include "colour/contrast.h"

#include <QPainter>
#include <QPainterPath>

namespace otherskein::app {

QColor toQColor(const colour::Srgb8& srgb) {
    return {srgb.r, srgb.g, srgb.b};
}

colour::Srgb8 toSrgb8(const QColor& colour) {
    return {static_cast<std::uint8_t>(colour.red()), static_cast<std::uint8_t>(colour.green()),
            static_cast<std::uint8_t>(colour.blue())};
}

void paintAbutting(QPainter& painter, const QRect& rect, const QColor& left, const QColor& right,
                   const QColor& ground, int band) {
    painter.fillRect(rect, ground);
    const QRect inner = rect.adjusted(band, band, -band, -band);
    const int half = inner.width() / 2;
    // Whole pixels and no antialiasing: a blended seam would be a third colour.
    painter.fillRect(QRect(inner.left(), inner.top(), half, inner.height()), left);
    painter.fillRect(QRect(inner.left() + half, inner.top(), inner.width() - half, inner.height()),
                     right);
}

void paintFinishMark(QPainter& painter, const QRect& rect, thread::Finish finish,
                     const QColor& chip) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QColor ink = inkOn(chip);
    const int right = rect.right() - 4;
    const int top = rect.top() + 5;
    if (finish == thread::Finish::Metallic) {
        painter.setPen(QPen(ink, 1.4));
        for (int i = 0; i < 3; ++i) {
            painter.drawLine(right - 3 - 4 * i, top + 6, right - 4 * i, top);
        }
    } else if (finish == thread::Finish::Variegated) {
        QPainterPath corner;
        corner.moveTo(right + 1, top - 2);
        corner.lineTo(right - 9, top - 2);
        corner.lineTo(right + 1, top + 8);
        corner.closeSubpath();
        painter.fillPath(corner, ink);
    }
    painter.restore();
}

QColor inkOn(const QColor& colour) {
    const colour::Srgb8 ground = toSrgb8(colour);
    return colour::contrastRatio(ground, {0, 0, 0}) >=
                   colour::contrastRatio(ground, {255, 255, 255})
               ? QColor(Qt::black)
               : QColor(Qt::white);
}

} // namespace otherskein::app
