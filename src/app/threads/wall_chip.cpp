#include "app/threads/wall_chip.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/threads/thread_columns.h"

#include <QFontMetrics>
#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace otherskein::app {

namespace {

// Pixels, chosen by eye. Below kLeastForMarks a finish mark would cover a tiny chip.
constexpr int kLeastForMarks = 26;
constexpr int kLeastForCode = 50;
constexpr int kLeastForName = 84;
constexpr int kMargin = 6;
constexpr int kCorner = 12; ///< how far a stock mark reaches

} // namespace

ChipText chipText(const QSize& chip) {
    if (chip.width() >= kLeastForName) {
        return ChipText::CodeAndName;
    }
    return chip.width() >= kLeastForCode ? ChipText::Code : ChipText::None;
}

void paintStashMark(QPainter& painter, const QRect& rect, const QColor& ink) {
    const int side = rect.width() >= kLeastForMarks ? 6 : 3;
    const int margin = rect.width() >= kLeastForMarks ? kMargin : 2;
    const QRect mark(rect.left() + margin, rect.bottom() + 1 - margin - side, side, side);
    painter.fillRect(mark, ink);
}

void paintStockMark(QPainter& painter, const QRect& rect, thread::Stock stock, const QColor& ink) {
    if (stock != thread::Stock::Out && stock != thread::Stock::Discontinued) {
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setClipRect(rect);
    painter.setPen(QPen(ink, 1.3));
    const int reach = std::clamp(rect.height() * 2 / 5, 4, kCorner);
    const QPointF corner(rect.right() + 1, rect.bottom() + 1);
    painter.drawLine(corner + QPointF(-reach, 0), corner + QPointF(0, -reach));
    if (stock == thread::Stock::Discontinued) {
        const double inner = std::max(3.0, reach - 5.0);
        painter.drawLine(corner + QPointF(-inner, 0), corner + QPointF(0, -inner));
    }
    painter.restore();
}

void paintWallChip(QPainter& painter, const QRect& rect, const ThreadItem& item, bool nearSearch) {
    const QColor colour(item.shown);
    painter.fillRect(rect, colour);
    const thread::Thread& thread = item.thread;
    const QColor ink = inkOn(colour);
    if (thread.stash > 0) {
        paintStashMark(painter, rect, ink);
    }
    paintStockMark(painter, rect, thread.stock, ink);
    if (rect.width() >= kLeastForMarks) {
        paintFinishMark(painter, rect, thread.finish, colour);
    }
    const ChipText text = chipText(rect.size());
    if (text == ChipText::None) {
        return;
    }
    painter.setPen(ink);
    const QFontMetrics metrics = painter.fontMetrics();
    const bool finishMark =
        thread.finish == thread::Finish::Metallic || thread.finish == thread::Finish::Variegated;
    const QRect inner = rect.adjusted(kMargin, kMargin - 1, -kMargin, -kMargin);
    QStringList lines{thread.code};
    if (text == ChipText::CodeAndName) {
        lines.push_back(thread.name);
    }
    if (nearSearch) {
        lines.push_back(QStringLiteral("ΔE ") + shownNumber(item.distance, 1));
    }
    QRect place(inner.left(), inner.top(), inner.width() - (finishMark ? 14 : 0), metrics.height());
    for (const QString& line : lines) {
        if (place.bottom() > rect.bottom() - kMargin + 1) {
            break;
        }
        painter.drawText(place, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine,
                         metrics.elidedText(line, Qt::ElideRight, place.width()));
        place = QRect(inner.left(), place.bottom() + 1, inner.width(), place.height());
    }
}

void paintChosenOutline(QPainter& painter, const QRect& rect) {
    const int width = rect.width() >= kLeastForMarks ? 2 : 1;
    painter.setBrush(Qt::NoBrush);
    QRect ring = rect;
    for (const QColor& colour : {QColor(Qt::black), QColor(Qt::white)}) {
        for (int i = 0; i < width; ++i) {
            painter.setPen(colour);
            painter.drawRect(ring.adjusted(0, 0, -1, -1));
            ring.adjust(1, 1, -1, -1);
        }
    }
}

} // namespace otherskein::app
