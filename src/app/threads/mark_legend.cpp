#include "app/threads/mark_legend.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/threads/thread_columns.h"
#include "app/threads/wall_chip.h"

#include <QFontMetrics>
#include <QPainter>
#include <QStyle>

#include <array>

namespace otherskein::app {

namespace {

constexpr int kLine = 28;
const QSize kSample(34, 24);

struct Entry {
    QString word;
    thread::Finish finish = thread::Finish::Unstated;
    thread::Stock stock = thread::Stock::Unstated;
    bool stash = false;
};

std::array<Entry, 5> entries() {
    return {{{MarkLegend::tr("In my stash"), {}, {}, true},
             {MarkLegend::tr("Out of stock"), {}, thread::Stock::Out},
             {MarkLegend::tr("Discontinued"), {}, thread::Stock::Discontinued},
             {MarkLegend::tr("Metallic"), thread::Finish::Metallic},
             {MarkLegend::tr("Variegated"), thread::Finish::Variegated}}};
}

} // namespace

MarkLegend::MarkLegend(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Marks on a chip"));
    QStringList words;
    for (const Entry& entry : entries()) {
        words.push_back(entry.word);
    }
    setAccessibleDescription(words.join(QStringLiteral(", ")));
}

QSize MarkLegend::sizeHint() const {
    return {160, kLine * static_cast<int>(entries().size())};
}

void MarkLegend::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Greys& g = greys();
    painter.setFont(scaledFont(0.92));
    int top = 0;
    for (const Entry& entry : entries()) {
        const QRect line(0, top, width(), kLine);
        const QRect sample = QStyle::alignedRect(
            layoutDirection(), Qt::AlignLeading | Qt::AlignVCenter, kSample, line);
        painter.fillRect(sample, g.surround);
        const QColor ink = inkOn(g.surround);
        if (entry.stash) {
            paintStashMark(painter, sample, ink);
        }
        paintStockMark(painter, sample, entry.stock, ink);
        paintFinishMark(painter, sample, entry.finish, g.surround);
        painter.setPen(g.quiet);
        const int gap = kSample.width() + 10;
        painter.drawText(
            isRightToLeft() ? line.adjusted(0, 0, -gap, 0) : line.adjusted(gap, 0, 0, 0),
            static_cast<int>(QStyle::visualAlignment(layoutDirection(), Qt::AlignLeading) |
                             Qt::AlignVCenter),
            entry.word);
        top += kLine;
    }
}

} // namespace otherskein::app
