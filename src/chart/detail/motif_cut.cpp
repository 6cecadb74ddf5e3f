#include "chart/detail/motif_cut.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace otherskein::chart {

namespace {

using Point = CutMotif::Point;

/// Twice the signed area of a triangle: which side of a→b the point c lies on.
double turn(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

Point middleOf(const Cell& cell) {
    return {cell.column + 0.5, cell.row + 0.5};
}

/// The drawn line with its ends run on, as segments with a box around each.
class Blade {
  public:
    explicit Blade(std::vector<Point> path) : m_path(std::move(path)) {
        constexpr double kRunOn = 0.75;
        const auto runOn = [](Point& end, const Point& before) {
            const double length = std::hypot(end.x - before.x, end.y - before.y);
            if (length > 0) {
                end.x += kRunOn * (end.x - before.x) / length;
                end.y += kRunOn * (end.y - before.y) / length;
            }
        };
        if (m_path.size() >= 2) {
            const Point second = m_path[1];
            const Point lastButOne = m_path[m_path.size() - 2];
            runOn(m_path.front(), second);
            runOn(m_path.back(), lastButOne);
        }
    }

    [[nodiscard]] bool parts(const Point& one, const Point& other) const {
        for (std::size_t i = 1; i < m_path.size(); ++i) {
            const Point& from = m_path[i - 1];
            const Point& to = m_path[i];
            if (std::max(from.x, to.x) < std::min(one.x, other.x) ||
                std::min(from.x, to.x) > std::max(one.x, other.x) ||
                std::max(from.y, to.y) < std::min(one.y, other.y) ||
                std::min(from.y, to.y) > std::max(one.y, other.y)) {
                continue;
            }
            // A middle that lies on the line counts to its left, so that it is parted from one side
            // only.
            const bool oneLeft = turn(from, to, one) >= 0;
            const bool otherLeft = turn(from, to, other) >= 0;
            const bool fromLeft = turn(one, other, from) >= 0;
            const bool toLeft = turn(one, other, to) >= 0;
            if (oneLeft != otherLeft && fromLeft != toLeft) {
                return true;
            }
        }
        return false;
    }

  private:
    std::vector<Point> m_path;
};

constexpr MotifIndex kUnseen = kNoMotif - 1;

} // namespace

void cutMotif(const Grid& grid, const CutMotif& cut, int reach, std::vector<MotifIndex>& of,
              MotifIndex& next) {
    if (!grid.contains(cut.in) || cut.path.size() < 2) {
        return;
    }
    const MotifIndex motif = of[grid.indexOf(cut.in)];
    if (motif == kNoMotif) {
        return;
    }
    const Blade blade(cut.path);
    // Before the cut the motif may hang in several parts already (joined by hand): what was one
    // part is named by `before`, what is one part after the cut by `after`.
    std::vector<std::size_t> cells;
    for (std::size_t i = 0; i < of.size(); ++i) {
        if (of[i] == motif) {
            cells.push_back(i);
        }
    }
    std::vector<MotifIndex> label(of.size(), kUnseen);
    const auto flood = [&](bool withBlade, std::vector<std::size_t>& sizes) {
        std::vector<std::size_t> queue;
        for (const std::size_t start : cells) {
            if (label[start] != kUnseen) {
                continue;
            }
            const auto name = static_cast<MotifIndex>(sizes.size());
            queue.assign(1, start);
            label[start] = name;
            for (std::size_t at = 0; at < queue.size(); ++at) {
                const Cell here = grid.cellAt(queue[at]);
                bool isAtEdge = false;
                const auto look = [&](int far) {
                    for (int y = here.row - far; y <= here.row + far; ++y) {
                        for (int x = here.column - far; x <= here.column + far; ++x) {
                            const Cell there{x, y};
                            const bool isIn =
                                grid.contains(there) && of[grid.indexOf(there)] == motif;
                            isAtEdge = isAtEdge || !isIn;
                            if (isIn && label[grid.indexOf(there)] == kUnseen &&
                                !(withBlade && blade.parts(middleOf(here), middleOf(there)))) {
                                label[grid.indexOf(there)] = name;
                                queue.push_back(grid.indexOf(there));
                            }
                        }
                    }
                };
                look(1);
                if (isAtEdge && reach > 1) { // gaps begin at the edge of what is stitched
                    look(reach);
                }
            }
            sizes.push_back(queue.size());
        }
    };
    std::vector<std::size_t> sizesBefore;
    flood(false, sizesBefore);
    std::vector<MotifIndex> before;
    before.reserve(cells.size());
    for (const std::size_t i : cells) {
        before.push_back(label[i]);
        label[i] = kUnseen;
    }
    std::vector<std::size_t> sizes;
    flood(true, sizes);

    // Of each part before, its largest part after stays; the others become motifs.
    std::vector<MotifIndex> stays(sizesBefore.size(), kUnseen);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        MotifIndex& best = stays[before[i]];
        const MotifIndex after = label[cells[i]];
        if (best == kUnseen || sizes[after] > sizes[best]) {
            best = after;
        }
    }
    std::vector<MotifIndex> newName(sizes.size(), kUnseen);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const MotifIndex after = label[cells[i]];
        if (stays[before[i]] == after) {
            continue;
        }
        if (newName[after] == kUnseen) {
            newName[after] = next++;
        }
        of[cells[i]] = newName[after];
    }
}

} // namespace otherskein::chart
