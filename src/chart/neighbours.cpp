#include "chart/neighbours.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>

namespace otherskein::chart {

namespace {

/// What two areas share at one place, or at several that were met one after the other. Whole
/// numbers, so that sums do not depend on the order of adding: a mirrored chart gives equal ones.
struct Shared {
    std::uint32_t one = 0;
    std::uint32_t other = 0;
    std::uint32_t halfSides = 0;
    std::uint64_t facing = 0; ///< in units of 1 / kFacingUnit
};

constexpr double kFacingUnit = 1ULL << 40U; // every place of the largest chart fits the sum

/// Adds up what each pair of areas shares.
class Pairs {
  public:
    explicit Pairs(std::size_t areas) : m_areas(areas) {}

    void addSides(std::uint32_t p, std::uint32_t q, std::uint32_t halfSides) {
        of(p, q).halfSides += halfSides;
    }
    void addFacing(std::uint32_t p, std::uint32_t q, std::uint64_t facing) {
        of(p, q).facing += facing;
    }

    /// By `one`, then `other`: two counting sorts, linear however many pairs there are.
    [[nodiscard]] std::vector<Neighbours> sorted() && {
        sortBy(&Shared::other);
        sortBy(&Shared::one);
        std::vector<Neighbours> list;
        for (std::size_t i = 0; i < m_shared.size();) {
            Shared sum = m_shared[i];
            for (++i; i < m_shared.size() && m_shared[i].one == sum.one &&
                      m_shared[i].other == sum.other;
                 ++i) {
                sum.halfSides += m_shared[i].halfSides;
                sum.facing += m_shared[i].facing;
            }
            list.push_back({sum.one, sum.other, sum.halfSides / 2.0,
                            static_cast<double>(sum.facing) / kFacingUnit});
        }
        return list;
    }

  private:
    std::size_t m_areas;
    std::vector<Shared> m_shared;

    /// Runs along a border meet the same pair again and again, so the last one is looked at first.
    Shared& of(std::uint32_t p, std::uint32_t q) {
        if (p > q) {
            std::swap(p, q);
        }
        if (m_shared.empty() || m_shared.back().one != p || m_shared.back().other != q) {
            m_shared.push_back({p, q, 0, 0});
        }
        return m_shared.back();
    }

    void sortBy(std::uint32_t Shared::*key) {
        if (m_shared.size() < 2) {
            return;
        }
        std::vector<std::size_t> place(m_areas + 1, 0);
        for (const Shared& one : m_shared) {
            ++place[one.*key + 1];
        }
        std::partial_sum(place.begin(), place.end(), place.begin());
        std::vector<Shared> sorted(m_shared.size());
        for (const Shared& one : m_shared) {
            sorted[place[one.*key]++] = one;
        }
        m_shared.swap(sorted);
    }
};

/// The labels of a chart by column and row.
class Areas {
  public:
    Areas(std::span<const std::uint32_t> areaOf, int columns, int rows)
        : m_areaOf(areaOf), m_columns(columns), m_rows(rows) {}

    [[nodiscard]] int columns() const { return m_columns; }
    [[nodiscard]] int rows() const { return m_rows; }
    [[nodiscard]] std::uint32_t at(int x, int y) const {
        return m_areaOf[static_cast<std::size_t>(y) * static_cast<std::size_t>(m_columns) +
                        static_cast<std::size_t>(x)];
    }

  private:
    std::span<const std::uint32_t> m_areaOf;
    int m_columns;
    int m_rows;
};

void addSides(const Areas& areas, Pairs& pairs) {
    const auto meet = [&](std::uint32_t here, std::uint32_t there) {
        if (there != here && there != kNoMotif && here != kNoMotif) {
            pairs.addSides(here, there, 2);
        }
    };
    for (int y = 0; y < areas.rows(); ++y) {
        for (int x = 0; x + 1 < areas.columns(); ++x) {
            meet(areas.at(x, y), areas.at(x + 1, y));
        }
        for (int x = 0; y + 1 < areas.rows() && x < areas.columns(); ++x) {
            meet(areas.at(x, y), areas.at(x, y + 1));
        }
    }
}

/// The two diagonals of each corner of four cells, where neither of the other two cells belongs to
/// one of the areas that meet: then the corner is all that they share there.
void addCorners(const Areas& areas, Pairs& pairs) {
    const auto meet = [&](std::uint32_t one, std::uint32_t other, std::uint32_t beside,
                          std::uint32_t opposite) {
        if (one != other && one != kNoMotif && other != kNoMotif && beside != one &&
            beside != other && opposite != one && opposite != other) {
            pairs.addSides(one, other, 1);
        }
    };
    for (int y = 0; y + 1 < areas.rows(); ++y) {
        for (int x = 0; x + 1 < areas.columns(); ++x) {
            const std::uint32_t a = areas.at(x, y);
            const std::uint32_t b = areas.at(x + 1, y);
            const std::uint32_t c = areas.at(x, y + 1);
            const std::uint32_t d = areas.at(x + 1, y + 1);
            meet(a, d, b, c);
            meet(b, c, a, d);
        }
    }
}

/// Along each row and column: two stitches of different areas with only bare ground between. All
/// columns are walked down side by side, since memory lies by rows.
void addFacing(const Areas& areas, int within, Pairs& pairs) {
    struct Last {
        std::uint32_t area = kNoMotif;
        int cell = 0;
    };
    std::vector<std::uint64_t> weights;
    const int most = std::min(within, std::max(areas.columns(), areas.rows()));
    for (int gap = 0; gap <= most; ++gap) {
        weights.push_back(static_cast<std::uint64_t>(std::llround(kFacingUnit / (1 + gap))));
    }
    const auto meet = [&](Last& last, std::uint32_t here, int cell) {
        const int gap = cell - last.cell - 1;
        if (last.area != here && last.area != kNoMotif && gap >= 1 && gap <= within) {
            pairs.addFacing(last.area, here, weights[static_cast<std::size_t>(gap)]);
        }
        last = {here, cell};
    };
    std::vector<Last> above(static_cast<std::size_t>(areas.columns()));
    for (int y = 0; y < areas.rows(); ++y) {
        Last before;
        for (int x = 0; x < areas.columns(); ++x) {
            if (const std::uint32_t here = areas.at(x, y); here != kNoMotif) {
                meet(before, here, x);
                meet(above[static_cast<std::size_t>(x)], here, y);
            }
        }
    }
}

} // namespace

std::vector<Neighbours> neighboursOf(std::span<const std::uint32_t> areaOf, int columns, int rows,
                                     std::size_t areas, int within) {
    assert(areaOf.size() == static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    assert(std::ranges::all_of(
        areaOf, [&](std::uint32_t area) { return area == kNoMotif || area < areas; }));
    const Areas labels(areaOf, columns, rows);
    Pairs pairs(areas);
    addSides(labels, pairs);
    addCorners(labels, pairs);
    if (within > 0) {
        addFacing(labels, within, pairs);
    }
    return std::move(pairs).sorted();
}

std::vector<Neighbours> neighboursOf(const Grid& grid, std::size_t keyRows, int within) {
    std::vector<std::uint32_t> labels;
    labels.reserve(grid.cells().size());
    for (const KeyIndex key : grid.cells()) {
        labels.push_back(key == kBare ? kNoMotif : key);
    }
    return neighboursOf(labels, grid.columns(), grid.rows(), keyRows, within);
}

std::vector<Neighbours> neighboursOf(const Motifs& motifs, int within) {
    return neighboursOf(motifs.of, motifs.columns, motifs.rows, motifs.motifs.size(), within);
}

} // namespace otherskein::chart
