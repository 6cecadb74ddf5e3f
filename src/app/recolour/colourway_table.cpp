#include "app/recolour/colourway_table.h"

#include "app/recolour/colourway_delegate.h"

#include <QKeyEvent>
#include <QScrollBar>

namespace otherskein::app {

ColourwayTable::ColourwayTable(QWidget* parent)
    : QListView(parent), m_rows(new ColourwayModel(this)), m_delegate(new ColourwayDelegate(this)) {
    setModel(m_rows);
    setItemDelegate(m_delegate);
    setAccessibleName(tr("Threads of the colourway, was and now"));
    setUniformItemSizes(true);
    setResizeMode(Adjust);
    setVerticalScrollMode(ScrollPerPixel);
    verticalScrollBar()->setSingleStep(24);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFrameShape(NoFrame);
    setEditTriggers(NoEditTriggers);
}

void ColourwayTable::show(std::vector<ColourwayRow> rows, const QColor& ground) {
    const ColourwayRow* before = chosen();
    const std::size_t part = before != nullptr ? before->parts.front() : 0;
    m_delegate->setGround(ground);
    m_rows->setRows(std::move(rows));
    if (chosen() == nullptr && m_rows->rowCount() > 0) {
        setCurrentIndex(m_rows->index(std::max(0, m_rows->rowOfPart(part))));
    } else if (m_rows->rowCount() > 0) {
        Q_EMIT rowChosen(); // the same row may stand for another thread now
    }
    viewport()->update();
}

const ColourwayRow* ColourwayTable::chosen() const {
    const int row = currentIndex().row();
    return row >= 0 && row < m_rows->rowCount() ? &m_rows->row(row) : nullptr;
}

void ColourwayTable::choosePart(std::size_t part) {
    if (const int row = m_rows->rowOfPart(part); row >= 0) {
        setCurrentIndex(m_rows->index(row));
    }
}

void ColourwayTable::turnLock() {
    if (const ColourwayRow* row = chosen()) {
        Q_EMIT lockAsked(std::vector(row->parts), !row->isLocked());
    }
}

bool ColourwayTable::isOnLock(const QModelIndex& index, const QPoint& point) const {
    return index.isValid() &&
           ColourwayDelegate::lockArea(visualRect(index), layoutDirection()).contains(point);
}

void ColourwayTable::mousePressEvent(QMouseEvent* event) {
    QListView::mousePressEvent(event);
    const QPoint point = event->position().toPoint();
    if (event->button() == Qt::LeftButton && isOnLock(indexAt(point), point)) {
        turnLock();
    }
}

void ColourwayTable::mouseDoubleClickEvent(QMouseEvent* event) {
    const QPoint point = event->position().toPoint();
    if (isOnLock(indexAt(point), point)) {
        turnLock(); // a quick second press on the lock, not a wish to change the thread
    } else if (indexAt(point).isValid()) {
        Q_EMIT changeAsked();
    }
}

void ColourwayTable::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_F2:
        Q_EMIT changeAsked();
        return;
    case Qt::Key_L:
        turnLock();
        return;
    default:
        QListView::keyPressEvent(event);
    }
}

void ColourwayTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QListView::currentChanged(current, previous);
    Q_EMIT rowChosen();
}

} // namespace otherskein::app
