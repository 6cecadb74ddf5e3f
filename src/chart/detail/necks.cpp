#include "chart/detail/necks.h"

#include "chart/detail/joined.h"
#include "chart/detail/thickness.h"

#include <algorithm>
#include <limits>
#include <span>

namespace otherskein::chart {

namespace {

/// Two basins first meet where the piece is this thick.
struct Meeting {
    std::uint32_t one = 0;
    std::uint32_t other = 0;
    std::uint16_t thickness = 0;
};

constexpr std::uint32_t kNoBasin = std::numeric_limits<std::uint32_t>::max();

struct Basins {
    std::vector<std::uint32_t> of; ///< per rimmed cell
    std::vector<std::uint16_t> peaks;
    std::vector<Meeting> meetings; ///< thickest first; they join all basins of a piece
};

/// Cells by how thick the piece is there; those of thickness 0 are left out. In the order of the
/// grid within a level (a counting sort).
class Levels {
  public:
    explicit Levels(const std::vector<std::uint16_t>& thickness) {
        const std::size_t most = thickness.empty() ? 0 : *std::ranges::max_element(thickness);
        m_end.assign(most + 1, 0);
        for (const std::uint16_t one : thickness) {
            ++m_end[one];
        }
        m_end[0] = 0;
        std::partial_sum(m_end.begin(), m_end.end(), m_end.begin());
        m_cells.resize(m_end.back());
        for (std::size_t i = thickness.size(); i-- > 0;) {
            if (thickness[i] > 0) {
                m_cells[--m_end[thickness[i]]] = static_cast<std::uint32_t>(i);
            }
        }
        m_end.push_back(m_cells.size()); // each place now holds where its level starts
    }

    [[nodiscard]] std::size_t most() const { return m_end.size() - 2; }
    [[nodiscard]] std::span<const std::uint32_t> at(std::size_t level) const {
        return std::span(m_cells).subspan(m_end[level], m_end[level + 1] - m_end[level]);
    }

  private:
    std::vector<std::size_t> m_end;
    std::vector<std::uint32_t> m_cells;
};

class Flood {
  public:
    Flood(const Rimmed& cells, const std::vector<std::uint16_t>& thickness)
        : m_cells(cells), m_thickness(thickness), m_levels(thickness) {
        m_basins.of.assign(cells.size(), kNoBasin);
    }

    Basins run() {
        for (std::size_t level = m_levels.most(); level > 0; --level) {
            label(m_levels.at(level));
        }
        Joined joined(m_basins.peaks.size());
        for (std::size_t level = m_levels.most(); level > 0; --level) {
            meet(m_levels.at(level), joined);
        }
        return std::move(m_basins);
    }

  private:
    const Rimmed& m_cells;
    const std::vector<std::uint16_t>& m_thickness;
    Levels m_levels;
    std::vector<std::uint32_t> m_queue;
    Basins m_basins;

    [[nodiscard]] bool together(std::size_t i, std::size_t j) const {
        return m_cells.piece(i) == m_cells.piece(j);
    }

    /// Basins grow over this level from above; what no basin reaches is a new one.
    void label(std::span<const std::uint32_t> level) {
        m_queue.clear();
        for (const std::uint32_t i : level) {
            std::uint32_t& basin = m_basins.of[i];
            for (std::size_t d = 0; d < Rimmed::kDirections && basin == kNoBasin; ++d) {
                const std::size_t j = m_cells.next(i, d);
                if (m_thickness[j] > m_thickness[i] && together(i, j)) {
                    basin = m_basins.of[j];
                    m_queue.push_back(i);
                }
            }
        }
        spread();
        for (const std::uint32_t i : level) {
            if (m_basins.of[i] == kNoBasin) {
                m_basins.of[i] = static_cast<std::uint32_t>(m_basins.peaks.size());
                m_basins.peaks.push_back(m_thickness[i]);
                m_queue.assign(1, i);
                spread();
            }
        }
    }

    /// Over the level of the queue, nearest first.
    void spread() {
        for (std::size_t at = 0; at < m_queue.size(); ++at) {
            const std::uint32_t i = m_queue[at];
            for (std::size_t d = 0; d < Rimmed::kDirections; ++d) {
                const std::size_t j = m_cells.next(i, d);
                if (m_basins.of[j] == kNoBasin && m_thickness[j] == m_thickness[i] &&
                    together(i, j)) {
                    m_basins.of[j] = m_basins.of[i];
                    m_queue.push_back(static_cast<std::uint32_t>(j));
                }
            }
        }
    }

    void meet(std::span<const std::uint32_t> level, Joined& joined) {
        for (const std::uint32_t i : level) {
            const std::uint32_t here = m_basins.of[i];
            for (std::size_t d = 0; d < Rimmed::kDirections; ++d) {
                const std::size_t j = m_cells.next(i, d);
                if (m_basins.of[j] != here && m_thickness[j] >= m_thickness[i] && together(i, j) &&
                    joined.join(here, m_basins.of[j])) {
                    m_basins.meetings.push_back({here, m_basins.of[j], m_thickness[i]});
                }
            }
        }
    }
};

/// Which basins are one body.
Joined bodiesOf(const Basins& basins, double narrowerThan) {
    constexpr int kLeastThinner = 2;
    std::vector<std::uint32_t> size(basins.peaks.size(), 0);
    for (const std::uint32_t basin : basins.of) {
        if (basin != kNoBasin) {
            ++size[basin];
        }
    }
    // The tree of meetings is walked as it grew. What a meeting joins does not depend on
    // `narrowerThan`, only whether it is a neck does: that makes the splits nested.
    std::vector<std::uint16_t> peak = basins.peaks;
    Joined grown(basins.peaks.size());
    Joined bodies(basins.peaks.size());
    for (const Meeting& meeting : basins.meetings) {
        const std::uint32_t one = grown.find(meeting.one);
        const std::uint32_t other = grown.find(meeting.other);
        const int thinner = std::min(peak[one], peak[other]);
        const bool isNeck = std::min(size[one], size[other]) >= kLeastBody &&
                            meeting.thickness + kLeastThinner <= thinner &&
                            meeting.thickness < narrowerThan * thinner;
        if (!isNeck) {
            bodies.join(meeting.one, meeting.other);
        }
        grown.join(one, other);
        const std::uint32_t both = grown.find(one);
        const std::uint32_t sum = size[one] + size[other];
        const std::uint16_t top = std::max(peak[one], peak[other]);
        size[both] = sum;
        peak[both] = top;
    }
    return bodies;
}

} // namespace

Labels splitAtNecks(const Grid& grid, const Pieces& pieces, double narrowerThan) {
    const Rimmed cells(grid, pieces);
    const std::vector<std::uint16_t> thickness = thicknessOf(cells);
    const Basins basins = Flood(cells, thickness).run();
    Joined bodies = bodiesOf(basins, narrowerThan);

    Labels labels;
    labels.of.assign(pieces.of.size(), kNoMotif);
    labels.next = static_cast<MotifIndex>(basins.peaks.size());
    std::size_t i = 0;
    for (int y = 0; y < grid.rows(); ++y) {
        const std::size_t start = cells.indexOf(0, y);
        for (std::size_t x = 0; x < static_cast<std::size_t>(grid.columns()); ++x, ++i) {
            if (const std::uint32_t basin = basins.of[start + x]; basin != kNoBasin) {
                labels.of[i] = bodies.find(basin);
            }
        }
    }
    return labels;
}

} // namespace otherskein::chart
