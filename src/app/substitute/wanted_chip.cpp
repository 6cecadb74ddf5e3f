#include "app/substitute/wanted_chip.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "colour/conversion.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>

namespace otherskein::app {

namespace {

QColor chipColour(const colour::Lab& lab) {
    return toQColor(colour::srgbFromLab(lab));
}

} // namespace

WantedChip::WantedChip(QWidget* parent) : QWidget(parent) {
    setFixedHeight(86);
    setAccessibleName(tr("The wanted colour on its ground"));
}

void WantedChip::show(const colourway::Wanted& wanted, const thread::Ground& ground) {
    m_wanted = wanted;
    m_ground = ground;
    setAccessibleDescription(wanted.name + QStringLiteral(", ") + ground.name);
    update();
}

void WantedChip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const QColor colour = chipColour(m_wanted.lab);
    paintAbutting(painter, rect(), colour, colour, toQColor(m_ground.shown), 14);
    if (m_wanted.thread) {
        paintFinishMark(painter, rect().adjusted(14, 14, -14, -14), m_wanted.thread->finish,
                        colour);
    }
}

KeyStrip::KeyStrip(QWidget* parent) : QWidget(parent) {
    setFixedHeight(34);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Threads of the chart's key"));
    setCursor(Qt::PointingHandCursor);
}

void KeyStrip::show(const chart::Key& key, const QString& wantedCode) {
    m_key = key;
    m_wantedCode = wantedCode;
    m_at = std::clamp(m_at, 0, std::max(0, int(key.size()) - 1));
    setVisible(!key.empty());
    update();
}

QRect KeyStrip::chipRect(int i) const {
    const int count = int(m_key.size());
    const int place = isRightToLeft() ? count - 1 - i : i;
    const int left = place * width() / count;
    return {left, 0, (place + 1) * width() / count - left, height()};
}

int KeyStrip::chipAt(const QPoint& point) const {
    for (int i = 0; i < int(m_key.size()); ++i) {
        if (chipRect(i).contains(point)) {
            return i;
        }
    }
    return -1;
}

void KeyStrip::choose(int i) {
    if (i >= 0 && i < int(m_key.size())) {
        m_at = i;
        const chart::KeyRow& row = m_key[static_cast<std::size_t>(i)];
        Q_EMIT chosen(row.card, row.code);
    }
}

void KeyStrip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    for (int i = 0; i < int(m_key.size()); ++i) {
        const chart::KeyRow& row = m_key[static_cast<std::size_t>(i)];
        const QRect chip = chipRect(i);
        const QColor colour = chipColour(row.lab);
        painter.fillRect(chip, colour);
        painter.setPen(inkOn(colour));
        painter.setFont(scaledFont(0.85, row.code == m_wantedCode ? 700 : 400));
        painter.drawText(chip, Qt::AlignCenter, row.symbol);
        if (row.code == m_wantedCode) {
            painter.fillRect(QRect(chip.left(), chip.bottom() - 2, chip.width(), 3), inkOn(colour));
        }
        if (hasFocus() && i == m_at) {
            painter.setPen(QPen(inkOn(colour), 2));
            painter.drawRect(chip.adjusted(2, 2, -2, -2));
        }
    }
}

void KeyStrip::mousePressEvent(QMouseEvent* event) {
    choose(chipAt(event->position().toPoint()));
}

void KeyStrip::keyPressEvent(QKeyEvent* event) {
    const int forward = isRightToLeft() ? Qt::Key_Left : Qt::Key_Right;
    const int back = isRightToLeft() ? Qt::Key_Right : Qt::Key_Left;
    if (event->key() == forward || event->key() == back) {
        m_at = std::clamp(m_at + (event->key() == forward ? 1 : -1), 0,
                          std::max(0, int(m_key.size()) - 1));
        update();
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
               event->key() == Qt::Key_Space) {
        choose(m_at);
    } else {
        QWidget::keyPressEvent(event);
    }
}

bool KeyStrip::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        auto* help = static_cast<QHelpEvent*>(event);
        if (const int i = chipAt(help->pos()); i >= 0) {
            const chart::KeyRow& row = m_key[static_cast<std::size_t>(i)];
            QToolTip::showText(
                help->globalPos(),
                tr("%1 %2 · %n stitches", nullptr, row.stitches).arg(row.code, row.name), this);
        }
        return true;
    }
    return QWidget::event(event);
}

} // namespace otherskein::app
