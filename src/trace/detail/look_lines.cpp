#include "trace/detail/look_lines.h"

#include <algorithm>
#include <array>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr double kLeastLength = 2;    // cells, of all lines of one look
constexpr double kLongest = 1.5;      // cells, corner to corner of one
constexpr double kMostOdd = 0.3;      // of what ends where backstitch may
constexpr double kSpanned = 0.85;     // of a grid's line
constexpr double kMostSides = 0.4;    // of all sides in the grid
constexpr double kMostSpanned = 0.3;  // of a look's length
constexpr double kMostBoxed = 0.6;    // of it, in sides of cells that have all four
constexpr double kMostRepeated = 0.4; // of what lies within cells, that the next cell has too

} // namespace

LinesOfLook::LinesOfLook(int columns, int rows, bool hasAreas)
    : m_columns(columns), m_rows(rows), m_hasAreas(hasAreas) {}

void LinesOfLook::add(const CellPath& path) {
    m_paths.push_back(path);
    for (const HalfLine& line : path.lines) {
        m_length += lengthOf(line);
    }
}

bool LinesOfLook::hasLong() const {
    return m_odd > 0 || std::ranges::any_of(m_paths, [](const CellPath& path) {
               return std::ranges::any_of(
                   path.lines, [](const HalfLine& line) { return lengthOf(line) > kLongest; });
           });
}

bool LinesOfLook::isOfGrid() const {
    return isGrid() || areBorders() || boxed() > kMostBoxed * m_length;
}

bool LinesOfLook::isBackstitch() const {
    return !m_hasAreas && m_length >= kLeastLength && m_odd <= kMostOdd * m_length && !isOfGrid() &&
           !areSymbols() && !areMarks(allLines());
}

std::set<HalfLine> LinesOfLook::allLines() const {
    std::set<HalfLine> all;
    for (const CellPath& path : m_paths) {
        all.insert(path.lines.begin(), path.lines.end());
    }
    return all;
}

std::set<LinesOfLook::Side> LinesOfLook::sides() const {
    std::set<Side> result;
    for (const CellPath& path : m_paths) {
        for (const HalfLine& line : path.lines) {
            const bool isUpright = line[0] == line[2];
            if ((!isUpright && line[1] != line[3]) || line[isUpright ? 0 : 1] % 2 != 0) {
                continue;
            }
            const int at = line[isUpright ? 0 : 1] / 2;
            const int from = (line[isUpright ? 1 : 0] + 1) / 2;
            const int to = line[isUpright ? 3 : 2] / 2;
            for (int k = from; k < to; ++k) {
                result.emplace(isUpright, at, k);
            }
        }
    }
    return result;
}

bool LinesOfLook::isGrid() const {
    std::map<std::pair<bool, int>, int> counts;
    const std::set<Side> all = sides();
    if (static_cast<double>(all.size()) > kMostSides * 2 * m_columns * m_rows) {
        return true;
    }
    for (const auto& [isUpright, at, place] : all) {
        ++counts[{isUpright, at}];
    }
    std::array<std::vector<int>, 2> lines;
    double length = 0;
    for (const auto& [line, count] : counts) {
        const auto& [isUpright, at] = line;
        const int most = isUpright ? m_rows : m_columns;
        // From end to end, be it with gaps: a border that is stitched may be nearly as long.
        const bool isWhole =
            all.contains({isUpright, at, 0}) && all.contains({isUpright, at, most - 1});
        if (isWhole && count >= kSpanned * most) {
            lines[isUpright ? 1 : 0].push_back(at);
            length += count;
        }
    }
    const auto isRegular = [](const std::vector<int>& places) {
        for (std::size_t i = 2; i < places.size(); ++i) {
            if (places[i] - places[i - 1] != places[1] - places[0]) {
                return false;
            }
        }
        return !places.empty();
    };
    const bool bothWays = !lines[0].empty() && !lines[1].empty();
    return length > kMostSpanned * m_length &&
           (bothWays || isRegular(lines[0]) || isRegular(lines[1]));
}

bool LinesOfLook::areBorders() const {
    constexpr double kMost = 0.8;
    double all = 0;
    double borders = 0;
    for (const CellPath& path : m_paths) {
        for (const HalfLine& line : path.lines) {
            const bool isAlong = line[0] == line[2] || line[1] == line[3];
            all += lengthOf(line);
            borders += path.path->isNarrow && isAlong && lengthOf(line) <= 1 ? lengthOf(line) : 0;
        }
    }
    return borders > kMost * all;
}

double LinesOfLook::boxed() const {
    const std::set<Side> all = sides();
    const auto isBox = [&](int column, int row) {
        return all.contains({true, column, row}) && all.contains({true, column + 1, row}) &&
               all.contains({false, row, column}) && all.contains({false, row + 1, column});
    };
    return static_cast<double>(std::ranges::count_if(all, [&](const Side& side) {
        const auto& [isUpright, at, place] = side;
        return isUpright ? isBox(at - 1, place) || isBox(at, place)
                         : isBox(place, at - 1) || isBox(place, at);
    }));
}

bool LinesOfLook::areSymbols() const {
    std::set<HalfLine> within;
    for (const CellPath& path : m_paths) {
        for (const HalfLine& line : path.lines) {
            const bool isShort = std::max(line[2] - line[0], std::abs(line[3] - line[1])) <= 2;
            const bool isSide = (line[0] == line[2] && line[0] % 2 == 0) ||
                                (line[1] == line[3] && line[1] % 2 == 0);
            if (isShort && !isSide) {
                within.insert(line);
            }
        }
    }
    double all = 0;
    double repeated = 0;
    for (const HalfLine& line : within) {
        const auto moved = [&](int x, int y) {
            return within.contains({line[0] + x, line[1] + y, line[2] + x, line[3] + y});
        };
        all += 1;
        const bool isRepeated = moved(2, 0) || moved(-2, 0) || moved(0, 2) || moved(0, -2) ||
                                within.contains({line[0], line[3], line[2], line[1]});
        repeated += isRepeated ? 1 : 0;
    }
    return all >= 3 && repeated > kMostRepeated * all;
}

} // namespace otherskein::trace::detail
