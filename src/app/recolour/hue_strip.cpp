#include "app/recolour/hue_strip.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "colour/conversion.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace otherskein::app {

namespace {

constexpr int kSteps = 36;
constexpr double kStepDegrees = 360.0 / kSteps;
constexpr int kStripHeight = 34;
constexpr int kMarker = 8; // height of the strip of grey that the marker stands in

/// One lightness and strength for all hues, as far as a screen shows them, so that only hue speaks.
QColor chipColour(double degrees) {
    constexpr double kLightness = 62;
    constexpr double kChroma = 38;
    const double turn = degrees * std::numbers::pi / 180;
    return toQColor(
        colour::srgbFromLab({kLightness, kChroma * std::cos(turn), kChroma * std::sin(turn)}));
}

} // namespace

QString hueName(double degrees) {
    // Where these names begin on the CIELAB circle: ours, by eye.
    struct Name {
        double from;
        const char* name;
    };
    static constexpr Name kNames[] = {
        {0, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "rose")},
        {22, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "red")},
        {48, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "orange")},
        {76, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "yellow")},
        {106, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "lime")},
        {132, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "green")},
        {178, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "turquoise")},
        {232, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "blue")},
        {296, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "violet")},
        {328, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "purple")},
        {348, QT_TRANSLATE_NOOP("otherskein::app::HueStrip", "rose")}};
    const char* name = kNames[0].name;
    for (const Name& one : kNames) {
        name = one.from <= degrees ? one.name : name;
    }
    return HueStrip::tr(name);
}

HueStrip::HueStrip(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setFixedHeight(kStripHeight);
    setMinimumWidth(160);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Hue"));
    setHue(0);
}

QSize HueStrip::sizeHint() const {
    return {320, kStripHeight};
}

void HueStrip::setHue(double degrees) {
    m_hue = degrees;
    const QString text = tr("%1, %2 degrees").arg(hueName(degrees)).arg(std::lround(degrees));
    setAccessibleDescription(text);
    setToolTip(tr("CIELAB hue: %1. The arrow keys move it.").arg(text));
    update();
}

QRect HueStrip::chipArea(int step) const {
    const int left = step * width() / kSteps;
    return {left, kMarker, (step + 1) * width() / kSteps - left, height() - 2 * kMarker + 4};
}

void HueStrip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    for (int step = 0; step < kSteps; ++step) {
        painter.fillRect(chipArea(step), chipColour(step * kStepDegrees));
    }
    const int chosen = static_cast<int>(std::lround(m_hue / kStepDegrees)) % kSteps;
    const QRect chip = chipArea(chosen);
    // The chosen chip stands out of the row; black and white edges are seen beside every hue.
    const QRect raised = chip.adjusted(-3, -kMarker + 2, 3, 6);
    painter.fillRect(raised.adjusted(-2, -2, 2, 2), Qt::black);
    painter.fillRect(raised.adjusted(-1, -1, 1, 1), Qt::white);
    painter.fillRect(raised, chipColour(chosen * kStepDegrees));
    if (hasFocus()) {
        painter.setPen(QPen(greys().text, 2));
        painter.drawLine(0, height() - 1, width(), height() - 1);
    }
}

void HueStrip::choose(double degrees) {
    const double before = m_hue;
    setHue(std::fmod(degrees + 360, 360));
    if (m_hue != before) {
        Q_EMIT hueChosen(m_hue);
    }
}

void HueStrip::chooseAt(double x) {
    const int step = std::clamp(static_cast<int>(x * kSteps / std::max(1, width())), 0, kSteps - 1);
    choose(step * kStepDegrees);
}

void HueStrip::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
        chooseAt(event->position().x());
    }
}

void HueStrip::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons().testFlag(Qt::LeftButton)) {
        chooseAt(event->position().x());
    }
}

void HueStrip::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Down:
        choose(m_hue - kStepDegrees);
        return;
    case Qt::Key_Right:
    case Qt::Key_Up:
        choose(m_hue + kStepDegrees);
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

void HueStrip::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void HueStrip::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace otherskein::app
