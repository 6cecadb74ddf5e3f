#include "app/tracing/other_symbol.h"

#include "app/frame/look.h"
#include "app/tracing/sheet_model.h"

#include <QPainter>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kLeft = 16;

} // namespace

OtherSymbol::OtherSymbol(const TracedDesk& traced, QWidget* parent)
    : QWidget(parent), m_traced(traced) {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    setAttribute(Qt::WA_TransparentForMouseEvents);
    hide();
}

void OtherSymbol::setRow(std::optional<chart::KeyIndex> row) {
    const auto& chart = m_traced.desk().chart();
    if (row == m_row && chart == m_chart) {
        return;
    }
    m_row = row;
    m_chart = chart;
    setVisible(m_row && m_chart);
    if (!m_row || !m_chart) {
        return;
    }
    m_cells = m_traced.cellsOf(*m_row);
    std::ranges::reverse(m_cells);
    const bool bare = *m_row == chart::kBare;
    m_title = tr("%1: %Ln cells", nullptr, static_cast<int>(m_cells.size()))
                  .arg(bare ? tr("Bare ground") : signOf(m_chart->key[*m_row]));
    setAccessibleName(tr("Compare with %1").arg(m_title));
    update();
}

void OtherSymbol::setSide(int pixels) {
    m_side = pixels;
    setFixedHeight(kTitle + kRowsOfCells * m_side + kBelow);
}

void OtherSymbol::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Greys& g = greys();
    painter.setPen(g.line);
    painter.drawLine(0, 0, width(), 0);
    painter.setPen(g.text);
    painter.setFont(scaledFont(1, 600));
    painter.drawText(QRect(kLeft, 0, width() - 2 * kLeft, kTitle), Qt::AlignVCenter, m_title);
    const int across = std::max(1, (width() - kLeft) / m_side);
    const int count = std::min(static_cast<int>(m_cells.size()), across * kRowsOfCells);
    for (int i = 0; i < count; ++i) {
        const QRect place(kLeft - SheetDelegate::kAround + i % across * m_side,
                          kTitle + i / across * m_side, m_side, m_side);
        SheetDelegate::paintPrint(painter, place, m_traced, m_cells[static_cast<std::size_t>(i)]);
    }
}

} // namespace otherskein::app
