#pragma once

#include "chart/detail/pieces.h"

#include <array>

namespace otherskein::chart {

/// The cells of a grid with a rim of cells around them that belong to no piece, so that neighbours
/// need no bounds checks.
class Rimmed {
  public:
    Rimmed(const Grid& grid, const Pieces& pieces);

    [[nodiscard]] std::size_t indexOf(int x, int y) const {
        return (static_cast<std::size_t>(y) + 1) * m_width + static_cast<std::size_t>(x) + 1;
    }
    [[nodiscard]] std::size_t size() const { return m_piece.size(); }
    [[nodiscard]] std::size_t width() const { return m_width; }
    [[nodiscard]] MotifIndex piece(std::size_t i) const { return m_piece[i]; }
    /// The cells around come in the order of the grid: four before, four after.
    [[nodiscard]] std::size_t next(std::size_t i, std::size_t direction) const {
        return static_cast<std::size_t>(static_cast<std::ptrdiff_t>(i) + m_around[direction]);
    }
    static constexpr std::size_t kDirections = 8;

  private:
    std::size_t m_width;
    std::vector<MotifIndex> m_piece;
    std::array<std::ptrdiff_t, kDirections> m_around{};
};

/// How thick a piece is at each of its cells: the side, in stitches, of the largest square inside
/// the piece whose middle is the cell (odd sides) or a corner of it (even sides). 0 outside. A bar
/// of one width has that thickness all along its middle, round corners and crossings too.
[[nodiscard]] std::vector<std::uint16_t> thicknessOf(const Rimmed& cells);

} // namespace otherskein::chart
