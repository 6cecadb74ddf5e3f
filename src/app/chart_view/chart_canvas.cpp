#include "app/chart_view/chart_canvas.h"

#include "app/frame/look.h"

#include <QGestureEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QPainter>
#include <QPinchGesture>
#include <QPointingDevice>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr double kKeyStep = 48;      // pixels that an arrow key moves the chart
constexpr double kKeyZoom = 1.25;    // of one press of + or -
constexpr double kWheelZoom = 1.2;   // of one notch of the wheel
constexpr double kNotch = 120;       // QWheelEvent::angleDelta of one notch
constexpr double kMarginCells = 3;   // of cloth around a chart that is shown whole
constexpr double kKeptInSight = 48;  // pixels of the chart that no panning takes away
constexpr double kFittedAtMost = 40; // a chart of few cells is not blown up to posters

/// The whole chart in the middle, with its cloth.
drawing::View fittedView(int columns, int rows, const QSizeF& size, double pixelRatio) {
    drawing::View view;
    view.size = size;
    view.pixelRatio = pixelRatio;
    view.cell = std::clamp(std::min(size.width() / (columns + 2 * kMarginCells),
                                    size.height() / (rows + 2 * kMarginCells)),
                           drawing::kLeastCell, kFittedAtMost);
    view.origin = {(size.width() - columns * view.cell) / 2,
                   (size.height() - rows * view.cell) / 2};
    return view;
}

double keptInSight(double origin, double chart, double widget) {
    const double kept = std::min({kKeptInSight, chart, widget});
    return std::clamp(origin, kept - chart, std::max(kept - chart, widget - kept));
}

} // namespace

ChartCanvas::ChartCanvas(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAttribute(Qt::WA_OpaquePaintEvent);
    grabGesture(Qt::PinchGesture);
    setMinimumSize(160, 120);
}

void ChartCanvas::setGridSize(int columns, int rows) {
    if (columns == m_columns && rows == m_rows) {
        return;
    }
    m_columns = columns;
    m_rows = rows;
    fit();
}

void ChartCanvas::setView(const drawing::View& view) {
    drawing::View after = view;
    after.size = QSizeF(size());
    after.pixelRatio = devicePixelRatioF();
    after.cell = std::clamp(after.cell, drawing::kLeastCell, drawing::kMostCell);
    after.origin = {keptInSight(after.origin.x(), m_columns * after.cell, after.size.width()),
                    keptInSight(after.origin.y(), m_rows * after.cell, after.size.height())};
    if (after == m_view) {
        return;
    }
    m_fitted = false;
    m_view = after;
    update();
    Q_EMIT viewChanged();
}

void ChartCanvas::fit() {
    m_view = fittedView(m_columns, m_rows, QSizeF(size()), devicePixelRatioF());
    m_fitted = true;
    update();
    Q_EMIT viewChanged();
}

void ChartCanvas::zoomBy(double factor) {
    setView(drawing::zoomed(
        m_view, std::clamp(m_view.cell * factor, drawing::kLeastCell, drawing::kMostCell),
        QRectF(rect()).center()));
}

std::optional<chart::Cell> ChartCanvas::cellAt(const QPointF& widgetPoint) const {
    const QPointF at = drawing::toCells(m_view, widgetPoint);
    const chart::Cell cell{static_cast<int>(std::floor(at.x())),
                           static_cast<int>(std::floor(at.y()))};
    if (cell.column < 0 || cell.row < 0 || cell.column >= m_columns || cell.row >= m_rows) {
        return std::nullopt;
    }
    return cell;
}

bool ChartCanvas::pressed(const QPointF& /*point*/, Qt::KeyboardModifiers /*modifiers*/) {
    return false;
}

void ChartCanvas::dragged(const QPointF& /*point*/, Qt::KeyboardModifiers /*modifiers*/) {}

void ChartCanvas::released(const QPointF& /*point*/) {}

void ChartCanvas::hovered(const QPointF& /*point*/) {}

void ChartCanvas::paintEvent(QPaintEvent* event) {
    m_view.pixelRatio = devicePixelRatioF(); // the window may have moved to another screen
    QPainter painter(this);
    paintChart(painter, event->rect());
    if (hasFocus() && m_focusSeen) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setClipping(false);
        painter.setPen(QPen(greys().text, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void ChartCanvas::resizeEvent(QResizeEvent* /*event*/) {
    if (m_fitted) {
        fit();
        return;
    }
    m_view.size = QSizeF(size());
    update();
    Q_EMIT viewChanged();
}

void ChartCanvas::wheelEvent(QWheelEvent* event) {
    const bool fingers = event->pointingDevice() != nullptr &&
                         event->pointingDevice()->type() == QInputDevice::DeviceType::TouchPad;
    drawing::View after = m_view;
    if (fingers && !event->modifiers().testFlag(Qt::ControlModifier)) {
        const QPoint moved =
            event->pixelDelta().isNull() ? event->angleDelta() / 4 : event->pixelDelta();
        after.origin += QPointF(moved);
    } else if (event->modifiers().testFlag(Qt::ShiftModifier) || event->angleDelta().y() == 0) {
        after.origin +=
            QPointF(event->angleDelta().x() + event->angleDelta().y(), 0) * (kKeyStep / kNotch);
    } else {
        const double factor = std::pow(kWheelZoom, event->angleDelta().y() / kNotch);
        after = drawing::zoomed(
            m_view, std::clamp(m_view.cell * factor, drawing::kLeastCell, drawing::kMostCell),
            event->position());
    }
    setView(after);
    event->accept();
}

void ChartCanvas::mousePressEvent(QMouseEvent* event) {
    m_last = event->position();
    if (m_gesture != Gesture::None) {
        return; // a second button during a gesture
    }
    if (event->button() == Qt::LeftButton && pressed(event->position(), event->modifiers())) {
        m_gesture = Gesture::Taken;
    } else if (event->button() == Qt::LeftButton || event->button() == Qt::MiddleButton) {
        m_gesture = Gesture::Pan;
        m_cursorBefore = cursor();
        setCursor(Qt::ClosedHandCursor);
    }
}

void ChartCanvas::mouseMoveEvent(QMouseEvent* event) {
    switch (m_gesture) {
    case Gesture::None:
        hovered(event->position());
        break;
    case Gesture::Taken:
        dragged(event->position(), event->modifiers());
        break;
    case Gesture::Pan: {
        drawing::View after = m_view;
        after.origin += event->position() - m_last;
        setView(after);
        break;
    }
    }
    m_last = event->position();
}

void ChartCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (event->buttons() & (Qt::LeftButton | Qt::MiddleButton)) {
        return; // of two buttons that were down, one still is
    }
    const Gesture ended = std::exchange(m_gesture, Gesture::None);
    if (ended == Gesture::Taken) {
        released(event->position());
    } else if (ended == Gesture::Pan) {
        setCursor(m_cursorBefore);
    }
}

void ChartCanvas::keyPressEvent(QKeyEvent* event) {
    QPointF move;
    switch (event->key()) {
    case Qt::Key_Left:
        move = {kKeyStep, 0};
        break;
    case Qt::Key_Right:
        move = {-kKeyStep, 0};
        break;
    case Qt::Key_Up:
        move = {0, kKeyStep};
        break;
    case Qt::Key_Down:
        move = {0, -kKeyStep};
        break;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoomBy(kKeyZoom);
        return;
    case Qt::Key_Minus:
        zoomBy(1 / kKeyZoom);
        return;
    case Qt::Key_0:
        fit();
        return;
    default:
        QWidget::keyPressEvent(event);
        return;
    }
    drawing::View after = m_view;
    after.origin += move;
    setView(after);
}

bool ChartCanvas::event(QEvent* event) {
    const auto zoomAt = [this](double factor, const QPointF& fixed) {
        setView(drawing::zoomed(
            m_view, std::clamp(m_view.cell * factor, drawing::kLeastCell, drawing::kMostCell),
            fixed));
    };
    if (event->type() == QEvent::NativeGesture) {
        const auto* gesture = static_cast<QNativeGestureEvent*>(event);
        if (gesture->gestureType() == Qt::ZoomNativeGesture) {
            zoomAt(1 + gesture->value(), gesture->position());
            return true;
        }
    } else if (event->type() == QEvent::Gesture) {
        auto* gesture = static_cast<QGestureEvent*>(event);
        if (const auto* pinch = static_cast<QPinchGesture*>(gesture->gesture(Qt::PinchGesture))) {
            zoomAt(pinch->scaleFactor(), QPointF(mapFromGlobal(pinch->centerPoint().toPoint())));
            gesture->accept(Qt::PinchGesture);
            return true;
        }
    } else if (event->type() == QEvent::FocusIn) {
        // A ring for whoever goes by keys; the mouse needs none.
        const Qt::FocusReason reason = static_cast<QFocusEvent*>(event)->reason();
        m_focusSeen = reason == Qt::TabFocusReason || reason == Qt::BacktabFocusReason;
        update();
    } else if (event->type() == QEvent::FocusOut) {
        update();
    }
    return QWidget::event(event);
}

} // namespace otherskein::app
