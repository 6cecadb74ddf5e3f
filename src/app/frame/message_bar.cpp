#include "app/frame/message_bar.h"

#include "app/frame/look.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTimer>

namespace otherskein::app {

MessageBar::MessageBar(QWidget* parent)
    : QWidget(parent), m_text(new QLabel(this)), m_timer(new QTimer(this)) {
    setAccessibleName(tr("Message"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 6, 10, 6);
    m_text->setWordWrap(true);
    m_text->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* close = new QPushButton(tr("Close"), this);
    close->setAccessibleName(tr("Close the message"));
    row->addWidget(m_text, 1);
    row->addWidget(close);
    m_timer->setSingleShot(true);
    connect(m_timer, &QTimer::timeout, this, &QWidget::hide);
    connect(close, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void MessageBar::tell(const QString& text) {
    show(text, false);
}

void MessageBar::refuse(const QString& text) {
    show(text, true);
}

QString MessageBar::text() const {
    return isHidden() ? QString() : m_text->text();
}

void MessageBar::show(const QString& text, bool stays) {
    constexpr int kReadingTimeMs = 8000;
    m_text->setText(text);
    m_timer->stop();
    if (!stays) {
        m_timer->start(kReadingTimeMs);
    }
    QWidget::show();
    QAccessibleEvent event(m_text, QAccessible::Alert);
    QAccessible::updateAccessibility(&event);
}

void MessageBar::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().chosen);
    painter.setPen(greys().edge);
    painter.drawLine(0, 0, width(), 0);
}

} // namespace otherskein::app
