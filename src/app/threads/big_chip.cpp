#include "app/threads/big_chip.h"

#include "app/frame/look.h"

#include <QPainter>

namespace otherskein::app {

namespace {

constexpr int kHeight = 96;

} // namespace

BigChip::BigChip(QWidget* parent) : QWidget(parent) {
    setFixedHeight(kHeight);
    setAccessibleName(tr("Colour of the chosen threads"));
}

void BigChip::show(std::vector<QColor> colours) {
    m_colours = std::move(colours);
    update();
}

void BigChip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    if (m_colours.empty()) {
        painter.setPen(greys().edge);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
    const auto count = static_cast<int>(m_colours.size());
    for (int i = 0; i < count; ++i) {
        const int left = i * width() / count;
        const int place = isRightToLeft() ? count - 1 - i : i;
        painter.fillRect(left, 0, (i + 1) * width() / count - left, height(),
                         m_colours[static_cast<std::size_t>(place)]);
    }
}

} // namespace otherskein::app
