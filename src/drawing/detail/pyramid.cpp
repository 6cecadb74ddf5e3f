#include "drawing/detail/pyramid.h"

#include "drawing/detail/halving.h"

namespace otherskein::drawing::detail {

void Pyramid::reset() {
    m_levels.clear();
}

void Pyramid::setCells(const chart::Grid& grid, const Paint& paint, const chart::Area& area) {
    if (m_levels.empty() || area.isEmpty()) {
        return;
    }
    paintFlat(m_levels.front(), grid, paint, area);
    QRect changed(area.left, area.top, area.columns, area.rows);
    for (std::size_t i = 1; i < m_levels.size(); ++i) {
        halveArea(m_levels[i - 1], m_levels[i], changed, paint.ground);
        changed = QRect(QPoint(changed.left() / 2, changed.top() / 2),
                        QPoint(changed.right() / 2, changed.bottom() / 2));
    }
}

const QImage& Pyramid::level(const chart::Grid& grid, const Paint& paint, int number) {
    if (m_levels.empty()) {
        m_levels.push_back(flatImage(grid, paint));
    }
    while (m_levels.size() <= static_cast<std::size_t>(number)) {
        m_levels.push_back(halvedOver(m_levels.back(), paint.ground));
    }
    return m_levels[static_cast<std::size_t>(number)];
}

} // namespace otherskein::drawing::detail
