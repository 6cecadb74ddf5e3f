#include "chart/detail/thickness.h"

#include <algorithm>
#include <limits>

namespace otherskein::chart {

Rimmed::Rimmed(const Grid& grid, const Pieces& pieces)
    : m_width(static_cast<std::size_t>(grid.columns()) + 2),
      m_piece(m_width * (static_cast<std::size_t>(grid.rows()) + 2), kNoMotif) {
    auto from = pieces.of.begin();
    for (int y = 0; y < grid.rows(); ++y, from += grid.columns()) {
        std::copy_n(from, grid.columns(),
                    m_piece.begin() + static_cast<std::ptrdiff_t>(indexOf(0, y)));
    }
    const auto w = static_cast<std::ptrdiff_t>(m_width);
    m_around = {-w - 1, -w, -w + 1, -1, 1, w - 1, w, w + 1};
}

namespace {

/// Steps of a king from each cell to the nearest one outside its piece; 0 outside all.
/// Two passes (Rosenfeld & Pfaltz 1966).
std::vector<std::uint16_t> depths(const Rimmed& cells) {
    std::vector<std::uint16_t> depth(cells.size(), 0);
    const auto least = [&](std::size_t i, std::size_t from, std::size_t to) {
        int best = depth[i];
        for (std::size_t d = from; d < to; ++d) {
            const std::size_t j = cells.next(i, d);
            best = std::min(best, cells.piece(j) == cells.piece(i) ? depth[j] + 1 : 1);
        }
        depth[i] = static_cast<std::uint16_t>(best);
    };
    constexpr std::size_t kBefore = Rimmed::kDirections / 2;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells.piece(i) != kNoMotif) {
            depth[i] = std::numeric_limits<std::uint16_t>::max() - 1;
            least(i, 0, kBefore);
        }
    }
    for (std::size_t i = cells.size(); i-- > 0;) {
        if (cells.piece(i) != kNoMotif) {
            least(i, kBefore, Rimmed::kDirections);
        }
    }
    return depth;
}

} // namespace

std::vector<std::uint16_t> thicknessOf(const Rimmed& cells) {
    const std::vector<std::uint16_t> depth = depths(cells);
    std::vector<std::uint16_t> thickness(depth.size(), 0);
    std::ranges::transform(depth, thickness.begin(), [](std::uint16_t d) {
        return static_cast<std::uint16_t>(d > 0 ? 2 * d - 1 : 0);
    });
    // Four cells around a corner, each the middle of a square of side 2 d - 1, make one of 2 d.
    const std::size_t width = cells.width();
    for (std::size_t i = 0; i + width + 1 < cells.size(); ++i) {
        const std::array<std::size_t, 4> four{i, i + 1, i + width, i + width + 1};
        const MotifIndex piece = cells.piece(i);
        if (piece == kNoMotif ||
            std::ranges::any_of(four, [&](std::size_t j) { return cells.piece(j) != piece; })) {
            continue;
        }
        const auto least = std::ranges::min(
            std::array{depth[four[0]], depth[four[1]], depth[four[2]], depth[four[3]]});
        for (const std::size_t j : four) {
            thickness[j] = std::max(thickness[j], static_cast<std::uint16_t>(2 * least));
        }
    }
    return thickness;
}

} // namespace otherskein::chart
