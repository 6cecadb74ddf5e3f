#pragma once

#include "chart/motifs.h"

#include <map>
#include <tuple>

namespace otherskein::chart {

/// Motifs of the steps up to kPlainStep, word by word as the header has it, for small grids: each
/// piece is walked around alone. Labels a cell, numbered by first appearance.
class SlowMotifs {
  public:
    SlowMotifs(const Grid& grid, KeyBounds bounds) : m_grid(grid), m_bounds(bounds) {
        m_pieceOf.assign(grid.cells().size(), -1);
        for (std::size_t i = 0; i < m_pieceOf.size(); ++i) {
            if (grid.cells()[i] != kBare && m_pieceOf[i] < 0) {
                m_pieces.emplace_back();
                fill(i, static_cast<int>(m_pieces.size()) - 1);
            }
        }
        for (std::size_t piece = 0; piece < m_pieces.size(); ++piece) {
            walkFrom(static_cast<int>(piece));
        }
    }

    [[nodiscard]] std::vector<int> at(int step) const {
        std::vector<int> label(m_pieces.size());
        for (std::size_t i = 0; i < label.size(); ++i) {
            label[i] = static_cast<int>(i);
        }
        const auto join = [&](int one, int other) {
            const int from = label[static_cast<std::size_t>(other)];
            const int to = label[static_cast<std::size_t>(one)];
            for (int& each : label) {
                each = each == from ? to : each;
            }
        };
        for (const auto& [pair, gap] : m_gaps) {
            if (gap <= bridgedGap(step)) {
                join(pair.first, pair.second);
            }
        }
        for (const auto& [crumb, home] : m_homes) {
            if (std::get<0>(home) <= kCrumbReach) {
                join(m_pieceOf[std::get<2>(home)], crumb);
            }
        }
        std::vector<int> of(m_pieceOf);
        for (int& each : of) {
            each = each < 0 ? -1 : label[static_cast<std::size_t>(each)];
        }
        return of;
    }

  private:
    const Grid& m_grid;
    KeyBounds m_bounds;
    std::vector<int> m_pieceOf;
    std::vector<std::vector<std::size_t>> m_pieces;
    std::map<std::pair<int, int>, int> m_gaps;
    std::map<int, std::tuple<int, int, std::size_t>> m_homes; ///< gap, −size, cell

    [[nodiscard]] bool belong(std::size_t i, std::size_t j) const {
        return m_bounds == KeyBounds::Ignored || m_grid.cells()[i] == m_grid.cells()[j];
    }
    [[nodiscard]] std::vector<std::size_t> around(std::size_t i) const {
        std::vector<std::size_t> cells;
        const Cell here = m_grid.cellAt(i);
        for (int y = -1; y <= 1; ++y) {
            for (int x = -1; x <= 1; ++x) {
                const Cell there{here.column + x, here.row + y};
                if (m_grid.contains(there)) {
                    cells.push_back(m_grid.indexOf(there));
                }
            }
        }
        return cells;
    }
    void fill(std::size_t start, int name) {
        std::vector<std::size_t>& cells = m_pieces.back();
        cells.push_back(start);
        m_pieceOf[start] = name;
        for (std::size_t at = 0; at < cells.size(); ++at) {
            for (const std::size_t j : around(cells[at])) {
                if (m_grid.cells()[j] != kBare && m_pieceOf[j] < 0 && belong(start, j)) {
                    m_pieceOf[j] = name;
                    cells.push_back(j);
                }
            }
        }
    }
    [[nodiscard]] int sizeOf(int piece) const {
        return static_cast<int>(m_pieces[static_cast<std::size_t>(piece)].size());
    }
    void walkFrom(int piece) {
        std::vector<std::size_t> front = m_pieces[static_cast<std::size_t>(piece)];
        const std::size_t start = front.front();
        std::vector<bool> isSeen(m_pieceOf.size(), false);
        for (int gap = 0; gap <= bridgedGap(0); ++gap) {
            std::vector<std::size_t> next;
            for (const std::size_t i : front) {
                for (const std::size_t j : around(i)) {
                    const int other = m_pieceOf[j];
                    if (other < 0 && !isSeen[j]) {
                        isSeen[j] = true;
                        next.push_back(j);
                    }
                    if (other >= 0 && other != piece && belong(start, j)) {
                        m_gaps.try_emplace({piece, other}, gap);
                        if (sizeOf(piece) < static_cast<int>(kCrumb) &&
                            sizeOf(other) >= static_cast<int>(kCrumb)) {
                            const std::tuple home(gap, -sizeOf(other), j);
                            const auto [best, isNew] = m_homes.try_emplace(piece, home);
                            best->second = std::min(best->second, home);
                        }
                    }
                }
            }
            front = std::move(next);
        }
    }
};

/// The same numbers for the same partition.
template <typename Label>
std::vector<int> byAppearance(const std::vector<Label>& labels) {
    std::map<Label, int> names;
    std::vector<int> numbers;
    for (const Label label : labels) {
        const bool isNone = label == static_cast<Label>(-1);
        numbers.push_back(
            isNone ? -1 : names.try_emplace(label, static_cast<int>(names.size())).first->second);
    }
    return numbers;
}

} // namespace otherskein::chart
