#include "app/tracing/row_prints.h"

#include <algorithm>
#include <limits>

namespace otherskein::app {

namespace {

constexpr std::size_t kSureCells = 24; // that say how a row is printed
constexpr double kNothing = std::numeric_limits<double>::infinity();

} // namespace

RowPrints::RowPrints(const chart::Chart& chart, const workbox::TracedPage& page,
                     const PagePicture& picture)
    : m_prints(chart.key.size() + 1) {
    const auto cells = std::as_const(chart.grid).cells();
    std::vector<std::vector<std::uint32_t>> of(m_prints.size());
    for (std::uint32_t i = 0; i < cells.size(); ++i) {
        of[placeOf(cells[i])].push_back(i);
    }
    constexpr int kSeen = 256; // surer than what tracing gives
    const auto sureness = [&](std::uint32_t cell) {
        return page.seen[cell] != 0 ? kSeen : int{page.confidence[cell]};
    };
    for (std::size_t row = 0; row < of.size(); ++row) {
        const std::size_t count = std::min(kSureCells, of[row].size());
        if (count == 0) {
            continue;
        }
        std::ranges::partial_sort(of[row], of[row].begin() + static_cast<std::ptrdiff_t>(count),
                                  std::ranges::greater(), sureness);
        std::vector<PagePicture::Glance> glances;
        Print print;
        print.cells = of[row].size();
        for (std::size_t i = 0; i < count; ++i) {
            glances.push_back(picture.glanceAt(chart.grid.cellAt(of[row][i])));
            for (std::size_t value = 0; value < print.mean.size(); ++value) {
                print.mean[value] += glances.back()[value] / static_cast<float>(count);
            }
        }
        double least = kNothing;
        for (std::size_t i = 0; i < count; ++i) {
            const double apart = difference(glances[i], print.mean);
            print.spread = std::max(print.spread, apart);
            if (apart < least) {
                least = apart;
                print.model = chart.grid.cellAt(of[row][i]);
            }
        }
        m_prints[row] = print;
    }
}

std::vector<chart::KeyIndex> RowPrints::nearestTo(const PagePicture::Glance& glance,
                                                  chart::KeyIndex without) const {
    std::vector<std::pair<double, chart::KeyIndex>> rows;
    for (std::size_t row = 0; row + 1 < m_prints.size(); ++row) {
        if (row != without) {
            rows.emplace_back(m_prints[row] ? difference(glance, m_prints[row]->mean) : kNothing,
                              static_cast<chart::KeyIndex>(row));
        }
    }
    std::ranges::sort(rows);
    std::vector<chart::KeyIndex> nearest;
    for (const auto& [apart, row] : rows) {
        nearest.push_back(row);
    }
    return nearest;
}

std::vector<chart::KeyIndex> RowPrints::nearestToRow(chart::KeyIndex row) const {
    const auto& print = m_prints[placeOf(row)];
    return nearestTo(print ? print->mean : PagePicture::Glance{}, row);
}

std::vector<RowPrints::Pair> RowPrints::alikePairs() const {
    struct Found {
        double apart;
        Pair pair;
    };
    std::vector<Found> found;
    for (std::size_t row = 0; row + 1 < m_prints.size(); ++row) {
        if (!m_prints[row]) {
            continue;
        }
        Found best{kNothing, {}};
        for (std::size_t other = 0; other + 1 < m_prints.size(); ++other) {
            if (other == row || !m_prints[other]) {
                continue;
            }
            const double apart = difference(m_prints[row]->mean, m_prints[other]->mean);
            if (apart < best.apart) {
                best = {apart,
                        {static_cast<chart::KeyIndex>(row), static_cast<chart::KeyIndex>(other)}};
            }
        }
        const auto isSame = [&](const Found& one) {
            return one.pair.row == best.pair.other && one.pair.other == best.pair.row;
        };
        if (best.apart == kNothing) {
            continue;
        }
        const auto twin = std::ranges::find_if(found, isSame);
        if (twin == found.end()) {
            found.push_back(best);
        } else if (m_prints[best.pair.row]->cells < m_prints[best.pair.other]->cells) {
            *twin = best;
        }
    }
    std::ranges::stable_sort(found, {}, &Found::apart);
    std::vector<Pair> pairs;
    for (const Found& one : found) {
        pairs.push_back(one.pair);
    }
    return pairs;
}

std::optional<chart::Cell> RowPrints::modelOf(chart::KeyIndex row) const {
    const std::size_t place = placeOf(row);
    return place < m_prints.size() && m_prints[place] ? std::optional(m_prints[place]->model)
                                                      : std::nullopt;
}

bool RowPrints::looksLike(const PagePicture::Glance& glance, chart::KeyIndex row) const {
    const auto& print = m_prints[placeOf(row)];
    if (!print) {
        return false;
    }
    const double apart = difference(glance, print->mean);
    return apart <= print->spread &&
           std::ranges::all_of(m_prints, [&](const std::optional<Print>& other) {
               return !other || apart <= difference(glance, other->mean);
           });
}

double RowPrints::unlikeness(const PagePicture::Glance& glance, chart::KeyIndex row) const {
    const auto& print = m_prints[placeOf(row)];
    return print ? difference(glance, print->mean) : 0;
}

} // namespace otherskein::app
