#include "trace/detail/groups.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <algorithm>
#include <cassert>

namespace otherskein::trace {

namespace {

constexpr int kMostOverlap = 12;       // columns or rows that two pages show both
constexpr double kLeastLikeness = 0.9; // of cells in an overlap

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

/// How alike two readings are where `other` lies `dx`, `dy` cells from `one`; how many kinds of
/// cells that compares.
double likeness(const Reading& one, const Reading& other, int dx, int dy) {
    int same = 0;
    int all = 0;
    std::vector<int> kinds;
    for (int row = std::max(0, dy); row < std::min(one.rows, dy + other.rows); ++row) {
        for (int column = std::max(0, dx); column < std::min(one.columns, dx + other.columns);
             ++column) {
            const int here = one.at(column, row);
            same += here == other.at(column - dx, row - dy) ? 1 : 0;
            ++all;
            if (std::ranges::find(kinds, here) == kinds.end()) {
                kinds.push_back(here);
            }
        }
    }
    return all == 0 || kinds.size() < 2 ? 0 : static_cast<double>(same) / all;
}

/// Where `other` goes by an overlap with `one`: to its right or below it; none without.
std::optional<chart::Cell> overlapped(const Reading& one, const Reading& other) {
    std::optional<chart::Cell> best;
    double most = kLeastLikeness;
    for (int overlap = 1; overlap <= kMostOverlap; ++overlap) {
        for (const chart::Cell& place :
             {chart::Cell{one.columns - overlap, 0}, chart::Cell{0, one.rows - overlap}}) {
            if (place.column < 0 || place.row < 0) {
                continue;
            }
            if (const double score = likeness(one, other, place.column, place.row); score > most) {
                most = score;
                best = place;
            }
        }
    }
    return best;
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
        const Piece& last = pieces[i - 1];
        pieces[i].place = {last.place.column + last.grid.columns, last.place.row};
        for (std::size_t k = i; k-- > 0;) {
            if (const auto step = overlapped(readings[k], readings[i])) {
                pieces[i].place = {pieces[k].place.column + step->column,
                                   pieces[k].place.row + step->row};
                break;
            }
        }
    }
    return pieces;
}

} // namespace otherskein::trace
