#include "app/threads/wall_grid.h"

#include <algorithm>

namespace otherskein::app {

WallGrid::WallGrid(int count, int across, int wantedChipWidth, Qt::LayoutDirection direction)
    : m_count(count), m_across(std::max(1, across)),
      m_columns(std::max(1, m_across / std::max(1, wantedChipWidth))),
      m_chipHeight(std::max(8, (wantedChipWidth * 3 + 2) / 4)),
      m_rightToLeft(direction == Qt::RightToLeft) {}

QRect WallGrid::chip(int index) const {
    const int column = index % m_columns;
    const int left = edge(column);
    const int width = edge(column + 1) - left;
    return {m_rightToLeft ? m_across - left - width : left, index / m_columns * m_chipHeight, width,
            m_chipHeight};
}

int WallGrid::columnAt(int x) const {
    const int along = m_rightToLeft ? m_across - 1 - x : x;
    if (along < 0 || along >= m_across) {
        return -1;
    }
    int column = std::min(along * m_columns / m_across, m_columns - 1);
    while (edge(column + 1) <= along) { // rounding may leave us one chip short
        ++column;
    }
    return column;
}

int WallGrid::rowAt(int y) const {
    return std::clamp(y / m_chipHeight, 0, std::max(0, rows() - 1));
}

int WallGrid::chipAt(const QPoint& point) const {
    const int column = columnAt(point.x());
    if (column < 0 || point.y() < 0 || point.y() >= height()) {
        return -1;
    }
    const int index = point.y() / m_chipHeight * m_columns + column;
    return index < m_count ? index : -1;
}

WallGrid::Span WallGrid::between(int row, int x1, int x2) const {
    const int one = columnAt(std::clamp(x1, 0, m_across - 1));
    const int other = columnAt(std::clamp(x2, 0, m_across - 1));
    const int first = row * m_columns;
    return {first + std::min(one, other), std::min(first + std::max(one, other), m_count - 1)};
}

} // namespace otherskein::app
