#pragma once

#include <QRect>
#include <QSize>

namespace otherskein::app {

/// Where chips lie in a wall: rows of equal chips that touch, filled in reading direction. Plain
/// arithmetic, so that 30,000 chips cost no more to lay out than three.
/// Units: pixels of the content, whose top left corner is 0, 0.
class WallGrid {
  public:
    WallGrid() = default;
    /// `across`: the width that the chips fill exactly; some are a pixel wider than others for it.
    WallGrid(int count, int across, int wantedChipWidth, Qt::LayoutDirection direction);

    [[nodiscard]] int columns() const { return m_columns; }
    [[nodiscard]] int rows() const { return (m_count + m_columns - 1) / m_columns; }
    [[nodiscard]] int chipHeight() const { return m_chipHeight; }
    [[nodiscard]] int height() const { return rows() * m_chipHeight; }
    [[nodiscard]] QRect chip(int index) const;
    /// -1 where there is none.
    [[nodiscard]] int chipAt(const QPoint& point) const;

    struct Span {
        int first = 0;
        int last = -1;
    };
    /// The chips of wall row `row` that touch the columns between the two points.
    [[nodiscard]] Span between(int row, int x1, int x2) const;
    [[nodiscard]] int rowAt(int y) const;

  private:
    int m_count = 0;
    int m_across = 1;
    int m_columns = 1;
    int m_chipHeight = 1;
    bool m_rightToLeft = false;

    [[nodiscard]] int edge(int column) const { return column * m_across / m_columns; }
    [[nodiscard]] int columnAt(int x) const;
};

} // namespace otherskein::app
