#include "trace/detail/groups.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

namespace otherskein::trace {

namespace {

constexpr int kMostOverlap = 12;      // columns or rows that two pages show both
constexpr double kLeastPurity = 0.95; // of cells in an overlap that say the same
constexpr double kLeastBits = 20;     // that an overlap must tell, beyond what chance does

/// One piece's cells as numbers that are the same where cells look the same, over all pieces.
struct Reading {
    int columns = 0;
    int rows = 0;
    std::vector<int> of;

    [[nodiscard]] int at(int column, int row) const {
        return of[static_cast<std::size_t>(row * columns + column)];
    }
};

std::vector<Reading> readingsOf(std::span<const Page> pages, const std::vector<Piece>& pieces) {
    cv::Mat looks;
    const std::vector<detail::Sheet> sheets = detail::sheetsOf(pages, pieces);
    for (const detail::Sheet& sheet : sheets) {
        looks.push_back(detail::looksOf(sheet));
    }
    const detail::Groups groups =
        detail::groupsOf(looks, detail::picturesOf(sheets), sheets.front().cell, {}, {});
    std::vector<Reading> readings;
    auto next = groups.of.begin();
    for (const Piece& piece : pieces) {
        Reading reading{piece.grid.columns, piece.grid.rows, {}};
        reading.of.assign(next, next + reading.columns * reading.rows);
        next += reading.columns * reading.rows;
        readings.push_back(std::move(reading));
    }
    return readings;
}

/// How much two readings tell of each other, in bits, where `other` lies `dx`, `dy` cells from
/// `one`; 0 where they do not show the same cells. A symbol may have another name on the other
/// page, where repeated cells are shaded, so that what counts is that one cell always goes with the
/// other: their mutual information, less what names that go together by chance would give.
double sharedBits(const Reading& one, const Reading& other, int dx, int dy) {
    std::map<std::pair<int, int>, int> pairs;
    std::map<int, int> here;
    std::map<int, int> there;
    int all = 0;
    for (int row = std::max(0, dy); row < std::min(one.rows, dy + other.rows); ++row) {
        for (int column = std::max(0, dx); column < std::min(one.columns, dx + other.columns);
             ++column) {
            const int a = one.at(column, row);
            const int b = other.at(column - dx, row - dy);
            ++pairs[{a, b}];
            ++here[a];
            ++there[b];
            ++all;
        }
    }
    std::map<int, int> mostHere;
    std::map<int, int> mostThere;
    double bits = 0;
    for (const auto& [pair, count] : pairs) {
        mostHere[pair.first] = std::max(mostHere[pair.first], count);
        mostThere[pair.second] = std::max(mostThere[pair.second], count);
        bits += count * std::log2(static_cast<double>(count) * all /
                                  (static_cast<double>(here[pair.first]) * there[pair.second]));
        bits -= pair.first == pair.second ? 1 : std::log2(1.0 + all);
    }
    const auto purity = [all](const std::map<int, int>& most) {
        int sum = 0;
        for (const auto& [kind, count] : most) {
            sum += count;
        }
        return static_cast<double>(sum) / all;
    };
    return all > 0 && (purity(mostHere) + purity(mostThere)) / 2 >= kLeastPurity ? bits : 0;
}

/// Where `other` goes by an overlap with `one`: beside it or above or below; none without. Where
/// numbers tell one of its coordinates, only there.
std::optional<chart::Cell> overlapped(const Reading& one, const Reading& other,
                                      std::optional<int> dx, std::optional<int> dy) {
    std::optional<chart::Cell> best;
    double most = kLeastBits;
    const auto consider = [&](const chart::Cell& place) {
        if ((dx && place.column != *dx) || (dy && place.row != *dy)) {
            return;
        }
        const double bits = sharedBits(one, other, place.column, place.row);
        if (bits > most) {
            most = bits;
            best = place;
        }
    };
    for (int overlap = 1; overlap <= kMostOverlap; ++overlap) {
        if (overlap < std::min(one.columns, other.columns)) {
            consider({one.columns - overlap, dy.value_or(0)});
            consider({overlap - other.columns, dy.value_or(0)});
        }
        if (overlap < std::min(one.rows, other.rows)) {
            consider({dx.value_or(0), one.rows - overlap});
            consider({dx.value_or(0), overlap - other.rows});
        }
    }
    return best;
}

/// How far `other` lies from `one` along one way, where numbers tell both.
std::optional<int> step(const std::optional<int>& one, const std::optional<int>& other) {
    return one && other ? std::optional(*other - *one) : std::nullopt;
}

/// Without an overlap: where its numbers say, else to the right, or below a page of the same
/// columns.
chart::Cell besides(const FoundGrid& one, std::optional<int> dx, std::optional<int> dy) {
    if (dx) {
        return {*dx, dy.value_or(*dx == 0 ? one.rows : 0)};
    }
    return {dy && *dy != 0 ? 0 : one.columns, dy.value_or(0)};
}

bool isNumbered(const FoundGrid& grid) {
    return grid.firstColumn.has_value() && grid.firstRow.has_value();
}

} // namespace

std::vector<Piece> joined(std::span<const Page> pages,
                          std::span<const std::vector<FoundGrid>> chosen) {
    assert(pages.size() == chosen.size());
    std::vector<Piece> pieces;
    bool numbered = true;
    for (std::size_t p = 0; p < chosen.size(); ++p) {
        for (const FoundGrid& grid : chosen[p]) {
            pieces.push_back({p, grid, {}});
            numbered = numbered && isNumbered(grid);
        }
    }
    if (pieces.size() < 2) {
        return pieces;
    }
    if (numbered) {
        for (Piece& piece : pieces) {
            piece.place = {*piece.grid.firstColumn - 1, *piece.grid.firstRow - 1};
        }
        return pieces;
    }
    const std::vector<Reading> readings = readingsOf(pages, pieces);
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const auto steps = [&](std::size_t k) {
            return std::pair(step(pieces[k].grid.firstColumn, pieces[i].grid.firstColumn),
                             step(pieces[k].grid.firstRow, pieces[i].grid.firstRow));
        };
        const auto placeBy = [&](std::size_t k, const chart::Cell& away) {
            pieces[i].place = {pieces[k].place.column + away.column,
                               pieces[k].place.row + away.row};
        };
        const auto [dx, dy] = steps(i - 1);
        placeBy(i - 1, besides(pieces[i - 1].grid, dx, dy));
        for (std::size_t k = i; k-- > 0;) {
            const auto [x, y] = steps(k);
            if (x && y) {
                placeBy(k, {*x, *y});
                break;
            }
            if (const auto away = overlapped(readings[k], readings[i], x, y)) {
                placeBy(k, *away);
                break;
            }
        }
    }
    return pieces;
}

} // namespace otherskein::trace
