#include "app/threads/wall_view.h"

#include "app/frame/look.h"
#include "app/threads/thread_filter.h"
#include "app/threads/thread_model.h"
#include "app/threads/wall_chip.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr int kSurround = 16; ///< of neutral grey around the wall, pixels
constexpr double kZoomStep = 1.15;

} // namespace

WallView::WallView(ThreadModel& model, QWidget* parent) : QListView(parent), m_model(model) {
    setModel(&model);
    setAccessibleName(tr("Wall of threads"));
    setSelectionMode(ExtendedSelection);
    setSelectionBehavior(SelectRows);
    setEditTriggers(NoEditTriggers);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn); // so that chips do not change their width
    setFrameShape(NoFrame);
    setContextMenuPolicy(Qt::CustomContextMenu);
    connect(this, &QAbstractItemView::doubleClicked, this, &WallView::substituteAsked);
}

void WallView::setChipWidth(int pixels) {
    if (pixels == m_chipWidth) {
        return;
    }
    // What stands in the middle, or the current chip when it is in view, stays there.
    const QRect current = visualRect(currentIndex());
    const QPoint middle = viewport()->rect().center();
    const QModelIndex anchor =
        viewport()->rect().intersects(current) ? currentIndex() : indexAt(middle);
    const int before = visualRect(anchor).center().y();
    m_chipWidth = pixels;
    layOut();
    if (anchor.isValid()) {
        verticalScrollBar()->setValue(verticalScrollBar()->value() +
                                      visualRect(anchor).center().y() - before);
    }
}

void WallView::layOut() {
    m_grid = WallGrid(m_model.rowCount(), viewport()->width() - 2 * kSurround + 4, m_chipWidth,
                      layoutDirection());
    updateGeometries();
    viewport()->update();
}

void WallView::doItemsLayout() {
    layOut();
}

void WallView::keyboardSearch(const QString& text) {
    Q_EMIT searchTyped(text);
}

void WallView::updateGeometries() {
    QScrollBar* bar = verticalScrollBar();
    bar->setPageStep(viewport()->height());
    bar->setSingleStep(std::max(12, m_grid.chipHeight()));
    bar->setRange(0, std::max(0, m_grid.height() + 2 * kSurround - viewport()->height()));
}

void WallView::resizeEvent(QResizeEvent* event) {
    QAbstractItemView::resizeEvent(event);
    layOut();
}

void WallView::changeEvent(QEvent* event) {
    QListView::changeEvent(event);
    if (event->type() == QEvent::LayoutDirectionChange) {
        layOut();
    }
}

QPoint WallView::origin() const {
    // The scroll bar stands in the surround on its side, so less of it is left beside the chips.
    return {isRightToLeft() ? kSurround - 4 : kSurround, kSurround - verticalScrollBar()->value()};
}

int WallView::verticalOffset() const {
    return verticalScrollBar()->value();
}

QRect WallView::visualRect(const QModelIndex& index) const {
    return index.isValid() ? m_grid.chip(index.row()).translated(origin()) : QRect();
}

QModelIndex WallView::indexAt(const QPoint& point) const {
    const int chip = m_grid.chipAt(point - origin());
    return chip >= 0 ? m_model.index(chip, 0) : QModelIndex();
}

void WallView::scrollTo(const QModelIndex& index, ScrollHint hint) {
    if (!index.isValid()) {
        return;
    }
    const QRect chip = visualRect(index);
    const int height = viewport()->height();
    int move = 0;
    if (hint == PositionAtCenter) {
        move = chip.center().y() - height / 2;
    } else if (chip.top() < kSurround) {
        move = chip.top() - kSurround;
    } else if (chip.bottom() > height - kSurround) {
        move = chip.bottom() - height + kSurround;
    }
    verticalScrollBar()->setValue(verticalScrollBar()->value() + move);
}

QModelIndex WallView::moveCursor(CursorAction action, Qt::KeyboardModifiers /*modifiers*/) {
    const int count = m_model.rowCount();
    if (count == 0) {
        return {};
    }
    if (!currentIndex().isValid()) {
        return m_model.index(0, 0);
    }
    const int now = currentIndex().row();
    const int columns = m_grid.columns();
    const int forward = isRightToLeft() ? -1 : 1;
    const int page = std::max(1, viewport()->height() / m_grid.chipHeight() - 1) * columns;
    int to = now;
    switch (action) {
    case MoveLeft:
        to = now - forward;
        break;
    case MoveRight:
        to = now + forward;
        break;
    case MovePrevious:
        to = now - 1;
        break;
    case MoveNext:
        to = now + 1;
        break;
    case MoveUp:
        to = now >= columns ? now - columns : now;
        break;
    case MoveDown:
        to = now + columns < count ? now + columns : now;
        break;
    case MovePageUp:
        to = now - page;
        break;
    case MovePageDown:
        to = now + page;
        break;
    case MoveHome:
        to = 0;
        break;
    case MoveEnd:
        to = count - 1;
        break;
    }
    return m_model.index(std::clamp(to, 0, count - 1), 0);
}

void WallView::setSelection(const QRect& rect, QItemSelectionModel::SelectionFlags flags) {
    QItemSelection selection;
    const auto add = [&](int first, int last) {
        if (first <= last) {
            selection.append(QItemSelectionRange(m_model.index(first, 0), m_model.index(last, 0)));
        }
    };
    if (state() == DragSelectingState) {
        const QRect content = rect.normalized().translated(-origin());
        if (content.bottom() >= 0 && content.top() < m_grid.height()) {
            for (int row = m_grid.rowAt(content.top()); row <= m_grid.rowAt(content.bottom());
                 ++row) {
                const WallGrid::Span span = m_grid.between(row, content.left(), content.right());
                add(span.first, span.last);
            }
        }
    } else {
        // From the first chip to the one under the mouse or the cursor, in reading order.
        const QModelIndex one = indexAt(rect.topLeft());
        const QModelIndex other = indexAt(rect.bottomRight());
        if (one.isValid() && other.isValid()) {
            add(std::min(one.row(), other.row()), std::max(one.row(), other.row()));
        }
    }
    selectionModel()->select(selection, flags | QItemSelectionModel::Rows);
}

QRegion WallView::visualRegionForSelection(const QItemSelection& selection) const {
    return selection.isEmpty() ? QRegion() : QRegion(viewport()->rect());
}

void WallView::paintEvent(QPaintEvent* event) {
    QPainter painter(viewport());
    painter.fillRect(event->rect(), greys().surround);
    if (m_model.rowCount() == 0) {
        return;
    }
    painter.setFont(scaledFont(m_chipWidth >= 84 ? 0.9 : 0.78));
    const bool near = parsedSearch(m_model.state().search).near.has_value();
    const QRect content = event->rect().translated(-origin());
    const int first = m_grid.rowAt(content.top()) * m_grid.columns();
    const int last =
        std::min((m_grid.rowAt(content.bottom()) + 1) * m_grid.columns(), m_model.rowCount());
    for (int i = first; i < last; ++i) {
        paintWallChip(painter, m_grid.chip(i).translated(origin()), m_model.item(i), near);
    }
    for (int i = first; i < last; ++i) {
        const QModelIndex index = m_model.index(i, 0);
        const QRect chip = m_grid.chip(i).translated(origin());
        if (selectionModel()->isSelected(index)) {
            paintChosenOutline(painter, chip);
        }
        if (hasFocus() && i == currentIndex().row()) {
            const int inset = selectionModel()->isSelected(index) ? 4 : 1;
            painter.setPen(QPen(Qt::white, 1));
            painter.drawRect(chip.adjusted(inset, inset, -inset - 1, -inset - 1));
            painter.setPen(QPen(Qt::black, 1, Qt::DashLine));
            painter.drawRect(chip.adjusted(inset, inset, -inset - 1, -inset - 1));
        }
    }
}

void WallView::keyPressEvent(QKeyEvent* event) {
    const auto zoomed = [this](double factor) {
        return static_cast<int>(std::lround(m_chipWidth * factor));
    };
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        Q_EMIT substituteAsked();
        return;
    case Qt::Key_Delete:
        Q_EMIT deleteAsked();
        return;
    case Qt::Key_Plus:
        Q_EMIT chipWidthAsked(zoomed(kZoomStep));
        return;
    case Qt::Key_Minus:
        Q_EMIT chipWidthAsked(zoomed(1 / kZoomStep));
        return;
    default:
        QListView::keyPressEvent(event);
    }
}

void WallView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers().testFlag(Qt::ControlModifier)) {
        const double factor = event->angleDelta().y() > 0 ? kZoomStep : 1 / kZoomStep;
        Q_EMIT chipWidthAsked(static_cast<int>(std::lround(m_chipWidth * factor)));
        event->accept();
        return;
    }
    QListView::wheelEvent(event);
}

} // namespace otherskein::app
