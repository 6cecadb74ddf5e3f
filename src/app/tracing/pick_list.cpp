#include "app/tracing/pick_list.h"

#include <QKeyEvent>
#include <QMouseEvent>

#include <algorithm>
#include <utility>

namespace otherskein::app {

PickList::PickList(QWidget* parent) : QListView(parent) {
    // Rows that wrap, not the icon view, whose places each have a record of their own.
    setViewMode(QListView::ListMode);
    setFlow(QListView::LeftToRight);
    setWrapping(true);
    setResizeMode(QListView::Adjust);
    setUniformItemSizes(true);
    setSelectionMode(QAbstractItemView::MultiSelection);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFrameShape(QFrame::NoFrame);
    viewport()->setAutoFillBackground(false);
    setStyleSheet(QStringLiteral("QListView { background: transparent; }"));
}

void PickList::pickUpTo(const QModelIndex& index) {
    if (!index.isValid()) {
        return;
    }
    const QModelIndex from = currentIndex().isValid() ? currentIndex() : index;
    const auto [first, last] = std::minmax({from.row(), index.row()});
    selectionModel()->select(QItemSelection(model()->index(first, 0), model()->index(last, 0)),
                             QItemSelectionModel::Select);
    selectionModel()->setCurrentIndex(index, QItemSelectionModel::NoUpdate);
    scrollTo(index);
}

void PickList::keyPressEvent(QKeyEvent* event) {
    const std::pair<int, CursorAction> ways[] = {{Qt::Key_Left, MoveLeft},
                                                 {Qt::Key_Right, MoveRight},
                                                 {Qt::Key_Up, MoveUp},
                                                 {Qt::Key_Down, MoveDown}};
    if (event->modifiers() == Qt::ShiftModifier) {
        for (const auto& [key, way] : ways) {
            if (event->key() == key) {
                pickUpTo(moveCursor(way, Qt::NoModifier));
                return;
            }
        }
    }
    QListView::keyPressEvent(event);
}

void PickList::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton && event->modifiers() == Qt::ShiftModifier) {
        pickUpTo(indexAt(event->position().toPoint()));
        return;
    }
    QListView::mousePressEvent(event);
}

} // namespace otherskein::app
