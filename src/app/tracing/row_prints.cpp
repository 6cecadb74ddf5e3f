#include "app/tracing/row_prints.h"

#include <algorithm>
#include <array>
#include <limits>

namespace otherskein::app {

namespace {

constexpr std::size_t kSureCells = 24; // that say how a row is printed
constexpr double kNothing = std::numeric_limits<double>::infinity();

} // namespace

RowPrints::Look::Look(const PagePicture::Glance& glance) : seen(glance), lit(glance) {
    // Most of a cell is paper or fill; ink is darker, and specks and glare are few.
    constexpr std::size_t kPaper = PagePicture::kGlance * PagePicture::kGlance * 4 / 5;
    constexpr float kWhite = 255;
    constexpr float kLeast = 32; // darker is no paper in whatever light
    std::array<float, PagePicture::kGlance * PagePicture::kGlance> light{};
    for (std::size_t i = 0; i < light.size(); ++i) {
        light[i] = std::max({glance[3 * i], glance[3 * i + 1], glance[3 * i + 2]});
    }
    std::ranges::nth_element(light, light.begin() + kPaper);
    const float gain = kWhite / std::max(kLeast, light[kPaper]);
    for (float& value : lit) {
        value *= gain;
    }
}

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
        std::vector<Look> looks;
        PagePicture::Glance mean{};
        for (std::size_t i = 0; i < count; ++i) {
            looks.emplace_back(picture.glanceAt(chart.grid.cellAt(of[row][i])));
            for (std::size_t value = 0; value < mean.size(); ++value) {
                mean[value] += looks.back().seen[value] / static_cast<float>(count);
            }
        }
        Print print{of[row].size(), Look(mean), 0, {}};
        double least = kNothing;
        for (std::size_t i = 0; i < count; ++i) {
            const double apart = looks[i].from(print.mean);
            print.spread = std::max(print.spread, apart);
            if (apart < least) {
                least = apart;
                print.model = chart.grid.cellAt(of[row][i]);
            }
        }
        m_prints[row] = print;
    }
}

std::vector<chart::KeyIndex> RowPrints::nearestTo(const Look& look, chart::KeyIndex without) const {
    std::vector<std::pair<double, chart::KeyIndex>> rows;
    for (std::size_t row = 0; row + 1 < m_prints.size(); ++row) {
        if (row != without) {
            rows.emplace_back(m_prints[row] ? look.from(m_prints[row]->mean) : kNothing,
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

std::vector<chart::KeyIndex> RowPrints::nearestTo(const PagePicture::Glance& glance,
                                                  chart::KeyIndex without) const {
    return nearestTo(Look(glance), without);
}

std::vector<chart::KeyIndex> RowPrints::nearestToRow(chart::KeyIndex row) const {
    const auto& print = m_prints[placeOf(row)];
    return nearestTo(print ? print->mean : Look(), row);
}

std::vector<RowPrints::Pair> RowPrints::alikePairs() const {
    struct Found {
        double apart;
        Pair pair;
    };
    std::vector<Found> found;
    const std::size_t bare = m_prints.size() - 1;
    for (std::size_t row = 0; row < bare; ++row) {
        double least = kNothing;
        std::size_t most = bare;
        for (std::size_t other = 0; m_prints[row] && other <= bare; ++other) {
            if (other == row || !m_prints[other]) {
                continue;
            }
            const double apart = m_prints[row]->mean.from(m_prints[other]->mean);
            if (apart < least) {
                least = apart;
                most = other;
            }
        }
        if (least == kNothing) {
            continue;
        }
        const Pair pair{static_cast<chart::KeyIndex>(row),
                        most == bare ? chart::kBare : static_cast<chart::KeyIndex>(most)};
        const auto twin = std::ranges::find_if(found, [&](const Found& one) {
            return one.pair.row == pair.other && one.pair.other == pair.row;
        });
        if (twin == found.end()) {
            found.push_back({least, pair});
        } else if (m_prints[row]->cells < m_prints[most]->cells) {
            twin->pair = pair;
        }
    }
    std::ranges::stable_sort(found, {}, &Found::apart);
    std::vector<Pair> pairs;
    for (const Found& one : found) {
        pairs.push_back(one.pair);
    }
    return pairs;
}

std::vector<std::vector<chart::KeyIndex>> RowPrints::families() const {
    // Of what two prints have, how much they need not have in common: on bad pages whose symbols
    // are known 54 % of all broken groups lay within it of their own symbol, 1 % of another.
    constexpr double kLike = 0.12;
    struct Member {
        chart::KeyIndex row;
        double apart; ///< from the family's first
    };
    std::vector<SymbolShape> shapes(m_prints.size());
    std::vector<chart::KeyIndex> rows;
    for (std::size_t row = 0; row + 1 < m_prints.size(); ++row) {
        if (m_prints[row]) {
            shapes[row] = SymbolShape(m_prints[row]->mean.seen);
            rows.push_back(static_cast<chart::KeyIndex>(row));
        }
    }
    std::ranges::stable_sort(rows, std::ranges::greater(),
                             [&](chart::KeyIndex row) { return m_prints[row]->cells; });
    std::vector<std::vector<Member>> found;
    for (const chart::KeyIndex row : rows) {
        double least = kLike;
        std::vector<Member>* nearest = nullptr;
        for (std::vector<Member>& family : found) {
            const double apart = app::unlikeness(shapes[family.front().row], shapes[row]);
            if (apart < least) {
                least = apart;
                nearest = &family;
            }
        }
        if (nearest != nullptr) {
            nearest->push_back({row, least});
        } else {
            found.push_back({{row, 0}});
        }
    }
    std::ranges::sort(found, {}, [](const auto& family) { return family.front().row; });
    // Families that may yet be one stand beside each other, to be picked together.
    constexpr double kNear = 0.3;
    for (auto first = found.begin(); first != found.end();) {
        const SymbolShape& shape = shapes[first->front().row];
        first = std::stable_partition(first + 1, found.end(), [&](const auto& family) {
            return app::unlikeness(shape, shapes[family.front().row]) < kNear;
        });
    }
    std::vector<std::vector<chart::KeyIndex>> families;
    for (std::vector<Member>& family : found) {
        std::ranges::stable_sort(family, {}, &Member::apart);
        families.emplace_back();
        for (const Member& member : family) {
            families.back().push_back(member.row);
        }
    }
    return families;
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
    const Look look(glance);
    const double apart = look.from(print->mean);
    return apart <= print->spread &&
           std::ranges::all_of(m_prints, [&](const std::optional<Print>& other) {
               return !other || apart <= look.from(other->mean);
           });
}

double RowPrints::unlikeness(const PagePicture::Glance& glance, chart::KeyIndex row) const {
    const auto& print = m_prints[placeOf(row)];
    return print ? Look(glance).from(print->mean) : 0;
}

} // namespace otherskein::app
