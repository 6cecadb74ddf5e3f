#include "app/tracing/page_preview.h"

#include "app/frame/look.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <utility>

namespace otherskein::app {

namespace {

constexpr double kPreviewMargin = 10;

} // namespace

PagePreview::PagePreview(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(320, 320);
    setAccessibleName(tr("The page and the grids on it"));
    setAccessibleDescription(tr("The number of a grid chooses it or lets it go. Ctrl and an arrow "
                                "move an edge of it out, with Shift in."));
}

void PagePreview::show(const std::shared_ptr<const trace::Page>& page,
                       const std::vector<trace::FoundGrid>& grids,
                       const std::vector<bool>& chosen) {
    if (page != m_page) {
        m_shown = {};
        m_zoom = 1;
        m_middle = {};
    }
    m_page = page;
    m_grids = grids;
    m_chosen = chosen;
    update();
}

QRectF PagePreview::wholeRect() const {
    const QRectF room =
        QRectF(rect()).adjusted(kPreviewMargin, kPreviewMargin, -kPreviewMargin, -kPreviewMargin);
    QRectF page(QPointF(), QSizeF(m_page->picture.size()).scaled(room.size(), Qt::KeepAspectRatio));
    page.moveCenter(room.center());
    return page;
}

QRectF PagePreview::pageRect() const {
    const QRectF whole = wholeRect();
    QRectF page(QPointF(), whole.size() * m_zoom);
    page.moveCenter(whole.center() - m_middle * whole.width() * m_zoom);
    return page;
}

void PagePreview::zoomBy(double factor) {
    if (factor == 0) {
        m_zoom = 1;
        m_middle = {};
        update();
    } else {
        zoomAt(QRectF(rect()).center(), factor);
    }
}

void PagePreview::zoomAt(const QPointF& place, double factor) {
    if (m_page == nullptr || m_page->picture.isNull()) {
        return;
    }
    constexpr double kMost = 12;
    const QRectF before = pageRect();
    const double zoom = std::clamp(m_zoom * factor, 1.0, kMost);
    // What is under the place stays there.
    const QPointF held = (place - before.topLeft()) / m_zoom * zoom;
    m_zoom = zoom;
    moveBy(place - held - pageRect().topLeft());
}

void PagePreview::moveBy(const QPointF& pixels) {
    if (m_page == nullptr || m_page->picture.isNull()) {
        return;
    }
    m_middle -= pixels / (wholeRect().width() * m_zoom);
    keepInSight();
    update();
}

/// The middle of the widget is on the page; a page that is seen whole stays in the middle.
void PagePreview::keepInSight() {
    if (m_zoom <= 1 || m_page == nullptr) {
        m_middle = {};
        return;
    }
    const QRectF whole = wholeRect();
    const double down = whole.height() / whole.width() / 2;
    m_middle = {std::clamp(m_middle.x(), -0.5, 0.5), std::clamp(m_middle.y(), -down, down)};
}

void PagePreview::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    keepInSight();
}

QPolygonF PagePreview::outlineOf(std::size_t grid) const {
    const QRectF page = pageRect();
    const double scale = page.width() / m_page->picture.width();
    QPolygonF outline;
    for (const QPointF& corner : m_grids[grid].outline) {
        outline.push_back(page.topLeft() + corner * scale);
    }
    return outline;
}

void PagePreview::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().surround);
    if (m_page == nullptr || m_page->picture.isNull()) {
        return;
    }
    const QRectF page = pageRect();
    const QSize own = m_page->picture.size();
    const QSize pixels = m_zoom > 1 ? own : (page.size() * devicePixelRatioF()).toSize();
    if (m_shown.size() != pixels) {
        m_shown =
            QPixmap::fromImage(pixels == own ? m_page->picture
                                             : m_page->picture.scaled(pixels, Qt::IgnoreAspectRatio,
                                                                      Qt::SmoothTransformation));
    }
    painter.setRenderHint(QPainter::SmoothPixmapTransform, page.width() < own.width());
    painter.drawPixmap(page, m_shown, QRectF(m_shown.rect()));
    painter.setRenderHint(QPainter::Antialiasing);
    for (std::size_t i = 0; i < m_grids.size(); ++i) {
        paintGrid(painter, i);
    }
    if (hasFocus()) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setPen(QPen(greys().text, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

/// Light and dark, so that it is seen on any print; a plate with number and size in the corner.
void PagePreview::paintGrid(QPainter& painter, std::size_t grid) const {
    const bool chosen = m_chosen[grid];
    const QPolygonF outline = outlineOf(grid);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::white, chosen ? 6 : 3));
    painter.drawPolygon(outline);
    painter.setPen(QPen(Qt::black, chosen ? 3 : 1, chosen ? Qt::SolidLine : Qt::DashLine));
    painter.drawPolygon(outline);
    const QString sign =
        tr("%1: %2 × %3").arg(grid + 1).arg(m_grids[grid].columns).arg(m_grids[grid].rows);
    painter.setFont(scaledFont(0.92, 600));
    const QFontMetrics metrics = painter.fontMetrics();
    // Above the grid, where it hides no cell; in sight wherever the page is moved.
    const QSizeF size(metrics.horizontalAdvance(sign) + 14, metrics.height() + 6);
    const QPointF corner = outline.boundingRect().topLeft() - QPointF(0, size.height() + 5);
    const QRectF plate({std::max(corner.x(), 4.0), std::max(corner.y(), 4.0)}, size);
    painter.setPen(QPen(chosen ? Qt::white : Qt::black, 1));
    painter.setBrush(chosen ? Qt::black : Qt::white);
    painter.drawRoundedRect(plate, 4, 4);
    painter.drawText(plate, Qt::AlignCenter, sign);
}

void PagePreview::mousePressEvent(QMouseEvent* event) {
    if (m_page != nullptr && event->button() == Qt::LeftButton) {
        m_drag = Drag{event->position()};
    }
}

void PagePreview::mouseMoveEvent(QMouseEvent* event) {
    if (!m_drag) {
        return;
    }
    const QPointF moved = event->position() - m_drag->last;
    if (m_drag->moves || moved.manhattanLength() >= QApplication::startDragDistance()) {
        m_drag = Drag{event->position(), true};
        moveBy(moved);
    }
}

void PagePreview::mouseReleaseEvent(QMouseEvent* event) {
    const auto drag = std::exchange(m_drag, std::nullopt);
    if (drag && !drag->moves && event->button() == Qt::LeftButton) {
        toggleAt(event->position());
    }
}

void PagePreview::wheelEvent(QWheelEvent* event) {
    constexpr double kStep = 1.25; // of one notch
    constexpr double kNotch = 120; // in eighths of a degree, as Qt counts
    zoomAt(event->position(), std::pow(kStep, event->angleDelta().y() / kNotch));
}

void PagePreview::toggleAt(const QPointF& place) {
    // The smallest that holds the point: one grid may lie inside another.
    std::optional<std::size_t> hit;
    for (std::size_t i = 0; i < m_grids.size(); ++i) {
        if (outlineOf(i).containsPoint(place, Qt::OddEvenFill) &&
            (!hit ||
             m_grids[i].columns * m_grids[i].rows < m_grids[*hit].columns * m_grids[*hit].rows)) {
            hit = i;
        }
    }
    if (hit) {
        Q_EMIT toggled(static_cast<int>(*hit));
    }
}

void PagePreview::keyPressEvent(QKeyEvent* event) {
    const int grid = event->key() - Qt::Key_1;
    if (grid >= 0 && grid < 9 && static_cast<std::size_t>(grid) < m_grids.size()) {
        Q_EMIT toggled(grid);
        return;
    }
    const bool out = event->modifiers() == Qt::ControlModifier;
    const bool in = event->modifiers() == (Qt::ControlModifier | Qt::ShiftModifier);
    const std::pair<int, GridSide> sides[] = {{Qt::Key_Left, GridSide::Left},
                                              {Qt::Key_Right, GridSide::Right},
                                              {Qt::Key_Up, GridSide::Top},
                                              {Qt::Key_Down, GridSide::Bottom}};
    constexpr double kPan = 60; // px of one press
    for (const auto& [key, side] : sides) {
        if (event->key() == key && (out || in)) {
            Q_EMIT edgeMoved(side, out ? 1 : -1);
            return;
        }
        if (event->key() == key) {
            const double along = side == GridSide::Left || side == GridSide::Top ? kPan : -kPan;
            moveBy(key == Qt::Key_Left || key == Qt::Key_Right ? QPointF(along, 0)
                                                               : QPointF(0, along));
            return;
        }
    }
    constexpr double kStep = 1.5;
    switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoomBy(kStep);
        return;
    case Qt::Key_Minus:
        zoomBy(1 / kStep);
        return;
    case Qt::Key_0:
        zoomBy(0);
        return;
    default:
        break;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        Q_EMIT confirmed();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace otherskein::app
