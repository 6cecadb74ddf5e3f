#include "app/recolour/alternatives_wall.h"

#include "app/frame/look.h"
#include "app/recolour/alternative_delegate.h"
#include "app/recolour/alternatives_model.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QStyle>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kAround = 6;       // pixels of surround about all cards
constexpr int kLeastWidth = 168; // of a card: its line of figures is read
constexpr int kLeastPicture = 64;

} // namespace

AlternativesWall::AlternativesWall(AlternativesModel& model, QWidget* parent)
    : QListView(parent), m_model(model), m_delegate(new AlternativeDelegate(this)) {
    setModel(&model);
    setItemDelegate(m_delegate);
    setAccessibleName(tr("Wall of alternatives"));
    setViewMode(IconMode);
    setMovement(Static);
    setResizeMode(Adjust);
    setUniformItemSizes(true);
    setSpacing(0);
    setFrameShape(NoFrame);
    setMouseTracking(true);
    setDragEnabled(false);
    setViewportMargins(kAround, kAround, kAround, kAround);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    viewport()->setAttribute(Qt::WA_Hover);
    setMinimumHeight(kLeastPicture + AlternativeDelegate::heightBelowPicture() + 2 * kAround);
}

void AlternativesWall::setExpected(int count) {
    m_expected = std::max(1, count);
    layOut();
}

void AlternativesWall::setAspect(double aspect) {
    m_aspect = aspect;
    layOut();
}

void AlternativesWall::setGround(const QColor& ground) {
    m_delegate->setGround(ground);
    viewport()->update();
}

void AlternativesWall::setEmptyText(const QString& text) {
    m_emptyText = text;
    viewport()->update();
}

/// The number of columns that gives each picture the largest scale.
void AlternativesWall::layOut() {
    // As without a scroll bar, which would make room for itself by the rows that it then scrolls.
    const QSize room = maximumViewportSize() - QSize(2, 2);
    const int below = AlternativeDelegate::heightBelowPicture();
    const int bar = style()->pixelMetric(QStyle::PM_ScrollBarExtent, nullptr, this);
    double best = -1;
    bool bestScrolls = false;
    QSize size;
    for (int columns = 1; columns <= m_expected; ++columns) {
        const int rows = (m_expected + columns - 1) / columns;
        QSize card(room.width() / columns, room.height() / rows);
        if (columns > 1 && card.width() < kLeastWidth) {
            break;
        }
        card.setHeight(std::max(card.height(), kLeastPicture + below)); // else the wall scrolls
        const bool scrolls = card.height() * rows > room.height();
        if (scrolls) {
            card.setWidth((room.width() - bar) / columns);
        }
        const double width = card.width() - 2 * AlternativeDelegate::kMargin;
        const double scale = std::min(width / m_aspect, static_cast<double>(card.height() - below));
        // Where the wall scrolls anyway, pictures of one size stand side by side, not one a row.
        const double worth = scrolls ? scale / 4 + 0.001 * columns : scale;
        if (worth > best) {
            best = worth;
            bestScrolls = scrolls;
            m_columns = columns;
            size = card;
        }
    }
    setVerticalScrollBarPolicy(bestScrolls ? Qt::ScrollBarAlwaysOn : Qt::ScrollBarAlwaysOff);
    if (size.isValid() && size != gridSize()) {
        m_delegate->setCardSize(size);
        setGridSize(size);
    }
}

void AlternativesWall::resizeEvent(QResizeEvent* event) {
    layOut();
    QListView::resizeEvent(event);
}

void AlternativesWall::paintEvent(QPaintEvent* event) {
    {
        QPainter painter(viewport());
        painter.fillRect(event->rect(), greys().surround);
        painter.setRenderHint(QPainter::Antialiasing);
        if (m_model.rowCount() == 0 && !m_emptyText.isEmpty()) {
            painter.setPen(greys().text);
            painter.drawText(viewport()->rect().adjusted(40, 0, -40, 0),
                             int(Qt::AlignCenter) | Qt::TextWordWrap, m_emptyText);
        } else {
            // Frames where cards are still to come, so that nothing jumps when they do.
            painter.setPen(QPen(greys().line, 1, Qt::DashLine));
            const QSize card = gridSize();
            constexpr int margin = AlternativeDelegate::kMargin;
            for (int i = m_model.rowCount(); m_model.rowCount() < m_expected && i < m_expected;
                 ++i) {
                const QRect frame(
                    QPoint((i % m_columns) * card.width(),
                           (i / m_columns) * card.height() - verticalScrollBar()->value()),
                    card);
                painter.drawRoundedRect(frame.adjusted(margin, margin, -margin, -margin), 7, 7);
            }
        }
    }
    QListView::paintEvent(event);
}

void AlternativesWall::take(int row) {
    if (row >= 0 && !m_model.isStale()) {
        Q_EMIT takeAsked(row);
    }
}

void AlternativesWall::mouseReleaseEvent(QMouseEvent* event) {
    QListView::mouseReleaseEvent(event);
    const QModelIndex index = indexAt(event->position().toPoint());
    if (event->button() == Qt::LeftButton && index.isValid() && index == currentIndex()) {
        take(index.row());
    }
}

void AlternativesWall::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        take(currentIndex().row());
        return;
    case Qt::Key_Space:
        Q_EMIT newIdeasAsked();
        return;
    case Qt::Key_M:
        if (currentIndex().isValid() && !m_model.isStale()) {
            Q_EMIT moreLikeAsked(currentIndex().row());
        }
        return;
    case Qt::Key_Escape:
        event->ignore(); // the place stops the search; a list would keep the key to itself
        return;
    default:
        QListView::keyPressEvent(event);
    }
}

} // namespace otherskein::app
