#include "chart/detail/gaps.h"

#include <algorithm>
#include <span>

namespace otherskein::chart {

namespace {

constexpr std::uint8_t kUnreached = std::numeric_limits<std::uint8_t>::max();

template <typename Visit>
void forAround(const Grid& grid, std::uint32_t i, Visit&& visit) {
    const auto columns = static_cast<std::uint32_t>(grid.columns());
    const auto rows = static_cast<std::uint32_t>(grid.rows());
    const std::uint32_t x = i % columns;
    const std::uint32_t y = i / columns;
    const std::uint32_t left = x > 0 ? 1 : 0;
    const std::uint32_t right = x + 1 < columns ? 1 : 0;
    for (std::uint32_t row = y > 0 ? y - 1 : 0; row <= y + 1 && row < rows; ++row) {
        const std::uint32_t middle = row * columns + x;
        for (std::uint32_t j = middle - left; j <= middle + right; ++j) {
            visit(j); // the cell itself too: cheaper than to leave it out
        }
    }
}

/// Pieces that have to do with each other: those of one row of the key, or all.
struct Group {
    std::vector<std::uint32_t> shore; ///< their stitches that have bare ground around them
    std::uint32_t crumbs = 0;
    std::uint32_t others = 0;
};

/// The pieces by groups, and room for fronts that spread from them over bare ground. Each group's
/// fronts spread alone, so that no other row's stitches decide who comes first to a bare cell.
class Ground {
  public:
    Ground(const Grid& grid, const Pieces& pieces, KeyBounds keyBounds)
        : m_grid(grid), m_pieces(pieces), m_isKept(keyBounds == KeyBounds::Kept) {
        for (std::size_t piece = 0; piece < pieces.sizes.size(); ++piece) {
            const std::size_t group = groupAt(pieces.first[piece]);
            if (group >= m_groups.size()) {
                m_groups.resize(group + 1);
            }
            (isCrumb(static_cast<MotifIndex>(piece)) ? m_groups[group].crumbs
                                                     : m_groups[group].others) += 1;
        }
    }

    /// Carries out `work(group)` for each group that `wanted` picks, its shore filled in.
    template <typename Wanted, typename Work>
    void forGroups(Wanted&& wanted, Work&& work) {
        if (!std::ranges::any_of(m_groups, wanted)) {
            return;
        }
        const auto cells = static_cast<std::uint32_t>(m_pieces.of.size());
        for (std::uint32_t i = 0; i < cells; ++i) {
            if (m_pieces.of[i] != kNoMotif && wanted(m_groups[groupAt(i)])) {
                bool isShore = false;
                forAround(m_grid, i, [&](std::uint32_t j) { isShore |= isBare(j); });
                if (isShore) {
                    m_groups[groupAt(i)].shore.push_back(i);
                }
            }
        }
        m_steps.assign(cells, kUnreached);
        m_from.resize(cells);
        for (const Group& group : m_groups) {
            if (wanted(group)) {
                work(group);
                for (const std::uint32_t i : m_reached) {
                    m_steps[i] = kUnreached;
                }
                m_reached.clear();
            }
        }
    }

    /// Spreads from `sources` step by step, as a king walks, over at most `reach` bare stitches.
    /// `see(from, j, step)` is told of every cell j around a reached cell, `step` bare stitches
    /// from the source that `from` names (nameOf(source)). It says whether `from` has a better
    /// claim to j than who came there in the same step (asked of such cells only).
    template <typename NameOf, typename See>
    void spread(std::span<const std::uint32_t> sources, int reach, NameOf&& nameOf, See&& see) {
        std::size_t front = 0;
        const auto lookAround = [&](std::uint32_t i, std::uint32_t from, int step) {
            forAround(m_grid, i, [&](std::uint32_t j) {
                const bool isBetter = see(from, j, step);
                if (!isBare(j)) {
                    return;
                }
                if (m_steps[j] == kUnreached && step < reach) {
                    m_steps[j] = static_cast<std::uint8_t>(step + 1);
                    m_from[j] = from;
                    m_reached.push_back(j);
                } else if (m_steps[j] == step + 1 && isBetter) {
                    m_from[j] = from;
                }
            });
        };
        for (const std::uint32_t i : sources) {
            lookAround(i, nameOf(i), 0);
        }
        for (int step = 1; step <= reach; ++step) {
            const std::size_t end = m_reached.size();
            for (; front < end; ++front) {
                const std::uint32_t i = m_reached[front];
                lookAround(i, m_from[i], step);
            }
        }
    }

    [[nodiscard]] bool isBare(std::uint32_t i) const { return m_pieces.of[i] == kNoMotif; }
    [[nodiscard]] bool isReached(std::uint32_t i) const { return m_steps[i] != kUnreached; }
    [[nodiscard]] int steps(std::uint32_t i) const { return m_steps[i]; }
    [[nodiscard]] std::uint32_t from(std::uint32_t i) const { return m_from[i]; }
    [[nodiscard]] bool isCrumb(MotifIndex piece) const { return m_pieces.sizes[piece] < kCrumb; }
    [[nodiscard]] std::size_t groupAt(std::size_t i) const {
        return m_isKept ? m_grid.cells()[i] : 0;
    }

  private:
    const Grid& m_grid;
    const Pieces& m_pieces;
    bool m_isKept;
    std::vector<Group> m_groups;
    std::vector<std::uint8_t> m_steps;    ///< bare stitches to each reached cell, itself with them
    std::vector<std::uint32_t> m_from;    ///< what its source is called
    std::vector<std::uint32_t> m_reached; ///< nearest first
};

} // namespace

void joinAcrossGaps(const Grid& grid, const Pieces& pieces, KeyBounds keyBounds, int widest,
                    Joined& joined) {
    // Fronts of all pieces spread at once. The shortest walk between two pieces crosses from front
    // to front over no longer gaps than its own, so joining where fronts meet joins all that is to
    // be joined, whoever comes first where two come together.
    Ground ground(grid, pieces, keyBounds);
    const auto wanted = [](const Group& group) { return group.crumbs + group.others > 1; };
    ground.forGroups(wanted, [&](const Group& group) {
        const std::size_t here = ground.groupAt(group.shore.empty() ? 0 : group.shore.front());
        const auto see = [&](std::uint32_t piece, std::uint32_t j, int step) {
            if (!ground.isBare(j)) {
                if (pieces.of[j] != piece && step > 0 && ground.groupAt(j) == here) {
                    joined.join(piece, pieces.of[j]);
                }
            } else if (ground.isReached(j) && ground.from(j) != piece &&
                       step + ground.steps(j) <= widest) {
                joined.join(piece, ground.from(j));
            }
            return false;
        };
        ground.spread(
            group.shore, (widest + 1) / 2, [&](std::uint32_t i) { return pieces.of[i]; }, see);
    });
}

std::vector<std::uint32_t> crumbHomes(const Grid& grid, const Pieces& pieces, KeyBounds keyBounds) {
    std::vector<std::uint32_t> homes(pieces.sizes.size(), kNoHome);
    std::vector<int> gaps(pieces.sizes.size(), kCrumbReach + 1);
    Ground ground(grid, pieces, keyBounds);
    const auto sizeAt = [&](std::uint32_t i) { return pieces.sizes[pieces.of[i]]; };
    const auto isBetter = [&](std::uint32_t one, std::uint32_t other) {
        return sizeAt(one) != sizeAt(other) ? sizeAt(one) > sizeAt(other) : one < other;
    };
    const auto wanted = [](const Group& group) { return group.crumbs > 0 && group.others > 0; };
    ground.forGroups(wanted, [&](const Group& group) {
        std::vector<std::uint32_t> sources;
        std::ranges::copy_if(group.shore, std::back_inserter(sources),
                             [&](std::uint32_t i) { return !ground.isCrumb(pieces.of[i]); });
        const std::size_t here = ground.groupAt(sources.empty() ? 0 : sources.front());
        const auto see = [&](std::uint32_t source, std::uint32_t j, int step) {
            if (ground.isBare(j)) {
                return ground.isReached(j) && isBetter(source, ground.from(j));
            }
            const MotifIndex piece = pieces.of[j];
            if (ground.isCrumb(piece) && ground.groupAt(j) == here &&
                (step < gaps[piece] || (step == gaps[piece] && isBetter(source, homes[piece])))) {
                gaps[piece] = step;
                homes[piece] = source;
            }
            return false;
        };
        ground.spread(
            sources, kCrumbReach, [](std::uint32_t i) { return i; }, see);
    });
    return homes;
}

} // namespace otherskein::chart
