#include "app/recolour/colourway_delegate.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/recolour/colourway_model.h"
#include "app/recolour/part_words.h"

#include <QLocale>
#include <QPainter>
#include <QPainterPath>

namespace otherskein::app {

namespace {

constexpr int kHeight = 46;
constexpr int kSide = 10;
constexpr int kChipWidth = 78;
constexpr int kFigures = 52;
constexpr int kLock = 30;

/// A padlock, closed or with its bow swung open.
void paintLock(QPainter& painter, const QPointF& middle, bool closed, const QColor& ink) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(middle);
    painter.setPen(QPen(ink, 1.6, Qt::SolidLine, Qt::FlatCap));
    painter.setBrush(Qt::NoBrush);
    const double shift = closed ? 0 : 5.5;
    QPainterPath bow(QPointF(-3 + shift, 0));
    bow.lineTo(-3 + shift, -3);
    bow.arcTo(QRectF(-3 + shift, -6, 6, 6), 180, -180);
    bow.lineTo(3 + shift, closed ? 0 : -2.5);
    painter.drawPath(bow);
    if (closed) {
        painter.setBrush(ink);
    }
    painter.drawRoundedRect(QRectF(-5, 0, 10, 7.5), 1.5, 1.5);
    painter.restore();
}

/// Writes lines of text under each other.
class Lines {
  public:
    Lines(QPainter& painter, const QRect& area, Qt::LayoutDirection direction, Qt::Alignment side)
        : m_painter(painter), m_area(area),
          m_flags(int(QStyle::visualAlignment(direction, side) | Qt::AlignVCenter)),
          m_direction(direction), m_top(area.top()) {}

    /// Bold text, then plain text beside it.
    void pair(const QString& bold, const QString& plain) {
        const QFont strong = scaledFont(1.0, 600);
        const int width =
            std::min(m_area.width(), QFontMetrics(strong).horizontalAdvance(bold) + 7);
        QRect first(m_area.left(), m_top, width, QFontMetrics(strong).height());
        QRect rest(m_area.left() + width, m_top, m_area.width() - width, first.height());
        if (m_direction == Qt::RightToLeft) {
            first.moveRight(m_area.right());
            rest.moveLeft(m_area.left());
        }
        write(first, bold, strong, greys().text);
        write(rest, plain, scaledFont(1.0), greys().text);
        m_top += first.height() + 1;
    }
    void line(const QString& text, const QFont& font, const QColor& ink) {
        const QRect area(m_area.left(), m_top, m_area.width(), QFontMetrics(font).height());
        write(area, text, font, ink);
        m_top += area.height() + 1;
    }

  private:
    QPainter& m_painter;
    QRect m_area;
    int m_flags;
    Qt::LayoutDirection m_direction;
    int m_top;

    void write(const QRect& area, const QString& text, const QFont& font, const QColor& ink) {
        m_painter.setFont(font);
        m_painter.setPen(ink);
        m_painter.drawText(area, m_flags,
                           QFontMetrics(font).elidedText(text, Qt::ElideRight, area.width()));
    }
};

} // namespace

QRect ColourwayDelegate::lockArea(const QRect& row, Qt::LayoutDirection direction) {
    return direction == Qt::RightToLeft
               ? QRect(row.left() + 2, row.top(), kLock, row.height())
               : QRect(row.right() - kLock - 1, row.top(), kLock, row.height());
}

void ColourwayDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const {
    const auto& model = *static_cast<const ColourwayModel*>(index.model());
    const ColourwayRow& row = model.row(index.row());
    const Greys& g = greys();
    const QRect area = option.rect;
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    painter->fillRect(area, chosen ? g.chosen : g.chrome);
    painter->setPen(g.line);
    painter->drawLine(area.bottomLeft(), area.bottomRight());

    const bool mirrored = option.direction == Qt::RightToLeft;
    const auto placed = [&](int left, int width, int top, int height) {
        const int x = mirrored ? area.right() + 1 - left - width : area.left() + left;
        return QRect(x, area.top() + top, width, height);
    };
    const QRect chip = placed(kSide, kChipWidth, 5, area.height() - 11);
    paintAbutting(*painter, chip, toQColor(colourway::shownColour(row.was)),
                  toQColor(colourway::shownColour(row.now)), m_ground, 4);
    if (!row.now.isBlend() && !row.now.portions.empty()) {
        paintFinishMark(*painter, chip.adjusted(4, 4, -4, -4),
                        row.now.portions.front().thread.finish,
                        toQColor(colourway::shownColour(row.now)));
    }

    constexpr int kText = kSide + kChipWidth + 10;
    Lines text(*painter, placed(kText, area.width() - kText - kFigures - kLock, 5, kHeight),
               option.direction, Qt::AlignLeft);
    if (row.byMotif) {
        // What a motif was charted in says nothing of it: a chart in one colour is to have many.
        text.pair(codeText(row.now), row.now.name());
    } else {
        const QString arrow(option.direction == Qt::RightToLeft ? QChar(0x2190) : QChar(0x2192));
        text.pair(codeText(row.was) + QLatin1Char(' ') + arrow + QLatin1Char(' ') +
                      codeText(row.now),
                  row.now.name());
    }
    const QString change = row.was.isSameAs(row.now)
                               ? row.words
                               : changeText(row) + QStringLiteral("  ·  ") + row.words;
    const QString said = row.byMotif ? row.origin : change;
    text.line(said, scaledFont(0.88), g.quiet);

    Lines figures(*painter, placed(area.width() - kFigures - kLock, kFigures - 6, 5, kHeight),
                  option.direction, Qt::AlignRight);
    const bool owned = row.now.isInStash();
    figures.line(ownText(row.now), scaledFont(1.0, owned ? 400 : 600), g.text);
    figures.line(QLocale().toString(row.stitches), scaledFont(0.88), g.quiet);

    paintLock(*painter, QRectF(lockArea(area, option.direction)).center() - QPointF(0, 1),
              row.isLocked(), row.isLocked() ? g.text : g.edge);
    if (chosen && option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 2));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(area.adjusted(1, 1, -1, -2));
    }
    painter->restore();
}

QSize ColourwayDelegate::sizeHint(const QStyleOptionViewItem& option,
                                  const QModelIndex& /*index*/) const {
    return {option.rect.width(), kHeight};
}

} // namespace otherskein::app
