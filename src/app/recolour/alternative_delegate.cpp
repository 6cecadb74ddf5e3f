#include "app/recolour/alternative_delegate.h"

#include "app/frame/look.h"
#include "app/recolour/alternatives_model.h"

#include <QPainter>
#include <QPainterPath>

namespace otherskein::app {

namespace {

constexpr int kStrip = 16;
constexpr int kPad = 9;
constexpr int kRadius = 7;
constexpr double kFaded = 0.35;

QFont nameFont() {
    return scaledFont(0.92, 600);
}

QFont figureFont() {
    return scaledFont(0.88);
}

/// Threads side by side, touching, on whole pixels: a blended seam would be a third colour.
void paintStrip(QPainter& painter, const QRect& area, const std::vector<QRgb>& strip) {
    const int count = static_cast<int>(strip.size());
    for (int i = 0; i < count; ++i) {
        const int left = area.left() + i * area.width() / count;
        const int right = area.left() + (i + 1) * area.width() / count;
        painter.fillRect(left, area.top(), right - left, area.height(),
                         QColor::fromRgb(strip[static_cast<std::size_t>(i)]));
    }
}

void paintPicture(QPainter& painter, const QRect& area, const QImage& picture,
                  const QColor& ground) {
    painter.fillRect(area, ground);
    if (picture.isNull()) {
        return;
    }
    const QSize size = picture.size().scaled(area.size(), Qt::KeepAspectRatio);
    QRect fitted(QPoint(), size);
    fitted.moveCenter(area.center());
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(fitted, picture);
}

/// A tick on a dark plate in the picture's corner.
void paintTaken(QPainter& painter, const QRect& picture) {
    constexpr int kSide = 22;
    const QRect plate(picture.right() - kSide - 5, picture.top() + 6, kSide, kSide);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(greys().onStrong, 1));
    painter.setBrush(greys().strong);
    painter.drawEllipse(plate);
    QPainterPath tick(QPointF(plate.left() + 6, plate.top() + 11.5));
    tick.lineTo(plate.left() + 10, plate.top() + 15.5);
    tick.lineTo(plate.left() + 16.5, plate.top() + 7.5);
    painter.setPen(QPen(greys().onStrong, 2.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(tick);
}

} // namespace

int AlternativeDelegate::heightBelowPicture() {
    return kStrip + QFontMetrics(nameFont()).height() + 2 * QFontMetrics(figureFont()).height() +
           15 + 2 * kMargin;
}

void AlternativeDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                                const QModelIndex& index) const {
    const auto& model = *static_cast<const AlternativesModel*>(index.model());
    const Alternative& one = model.alternative(index.row());
    const Greys& g = greys();
    const bool taken = index.row() == model.takenRow();
    const QRect card = option.rect.adjusted(kMargin, kMargin, -kMargin, -kMargin);
    painter->save();
    if (model.isStale()) {
        painter->setOpacity(kFaded);
    }
    painter->setRenderHint(QPainter::Antialiasing);
    QPainterPath shape;
    shape.addRoundedRect(card, kRadius, kRadius);
    painter->fillPath(shape, g.chosen);

    QRect picture = card;
    picture.setBottom(card.bottom() - (heightBelowPicture() - 2 * kMargin));
    painter->setClipPath(shape);
    paintPicture(*painter, picture, one.picture, m_ground);
    QRect strip(card.left(), picture.bottom() + 1, card.width(), kStrip);
    painter->setRenderHint(QPainter::Antialiasing, false);
    paintStrip(*painter, strip, one.strip);
    painter->setClipping(false);

    QRect line(card.left() + kPad, strip.bottom() + 6, card.width() - 2 * kPad, 0);
    const auto write = [&](const QString& text, const QFont& font, const QColor& ink) {
        const QFontMetrics metrics(font);
        line.setHeight(metrics.height());
        painter->setFont(font);
        painter->setPen(ink);
        painter->drawText(
            line, int(QStyle::visualAlignment(option.direction, Qt::AlignLeft) | Qt::AlignVCenter),
            metrics.elidedText(text, Qt::ElideRight, line.width()));
        line.moveTop(line.top() + metrics.height() + 1);
    };
    write(index.data(Qt::DisplayRole).toString(), nameFont(), g.text);
    write(figuresText(one.colourway), figureFont(), g.text);
    write(threadsText(one.colourway.figures), figureFont(), g.quiet);

    painter->setRenderHint(QPainter::Antialiasing);
    const bool pointed = option.state.testFlag(QStyle::State_MouseOver) && !model.isStale();
    painter->setBrush(Qt::NoBrush);
    painter->setPen(taken ? QPen(g.strong, 3) : pointed ? QPen(g.text, 2) : QPen(g.line, 1));
    painter->drawPath(shape);
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 1.5, Qt::DashLine));
        painter->drawRoundedRect(card.adjusted(-3, -3, 3, 3), kRadius + 2, kRadius + 2);
    }
    if (taken) {
        paintTaken(*painter, picture);
    }
    painter->restore();
}

QSize AlternativeDelegate::sizeHint(const QStyleOptionViewItem& /*option*/,
                                    const QModelIndex& /*index*/) const {
    return m_size;
}

} // namespace otherskein::app
