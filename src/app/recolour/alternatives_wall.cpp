#include "app/recolour/alternatives_wall.h"

#include "app/frame/look.h"
#include "app/recolour/alternative_delegate.h"
#include "app/recolour/alternatives_model.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>

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

QSize AlternativesWall::pictureSize() const {
    const QSize card = gridSize();
    const QSize picture(card.width() - 2 * AlternativeDelegate::kMargin,
                        card.height() - AlternativeDelegate::heightBelowPicture());
    return (QSizeF(picture.expandedTo({40, 24})) * devicePixelRatioF()).toSize();
}

/// The number of columns that gives each picture the largest scale.
void AlternativesWall::layOut() {
    const QSize room = viewport()->size();
    const int below = AlternativeDelegate::heightBelowPicture();
    double best = -1;
    QSize size;
    for (int columns = 1; columns <= m_expected; ++columns) {
        const int rows = (m_expected + columns - 1) / columns;
        QSize card(room.width() / columns, room.height() / rows);
        if (columns > 1 && card.width() < kLeastWidth) {
            break;
        }
        card.setHeight(std::max(card.height(), kLeastPicture + below)); // else the wall scrolls
        const bool scrolls = card.height() * rows > room.height();
        const double width = card.width() - 2 * AlternativeDelegate::kMargin;
        const double scale = std::min(width / m_aspect, static_cast<double>(card.height() - below));
        const double worth = scrolls ? scale / 4 : scale;
        if (worth > best) {
            best = worth;
            m_columns = columns;
            size = card;
        }
    }
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
    default:
        QListView::keyPressEvent(event);
    }
}

} // namespace otherskein::app
