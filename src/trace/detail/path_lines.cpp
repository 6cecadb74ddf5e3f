#include "trace/detail/path_lines.h"

#include "trace/detail/half_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr double kNear = 0.07;        // cells by which an end may lie off
constexpr double kLeastLength = 2;    // cells, of all lines of one look
constexpr double kStroke = 0.95;      // cells: a symbol's are shorter
constexpr double kLong = 0.6;         // cells: a line along the grid's, not a stroke
constexpr double kMostOdd = 0.3;      // of what ends where backstitch may
constexpr double kMostWidth = 0.5;    // cells
constexpr double kSpanned = 0.85;     // of a grid's line
constexpr double kMostSides = 0.4;    // of all sides in the grid
constexpr double kMostSpanned = 0.3;  // of a look's length
constexpr double kMostBoxed = 0.6;    // of it, in sides of cells that have all four
constexpr double kMostRepeated = 0.4; // of what lies within cells, that the next cell has too
constexpr double kMostKnot = 0.75;    // cells

/// A path whose lines all go from corner to corner, or middles.
struct CellPath {
    const PaintedPath* path = nullptr;
    std::vector<HalfLine> lines;
    double width = 0; ///< cells
};

/// Paths whose lines all lie in the grid and begin and end where backstitch may.
class OnCells {
  public:
    OnCells(const cv::Matx33d& toCells, int columns, int rows)
        : m_toCells(toCells), m_columns(columns), m_rows(rows) {
        const cv::Point2d step = through(toCells, {1, 1}) - through(toCells, {0, 0});
        m_scale = (std::abs(step.x) + std::abs(step.y)) / 2;
    }

    [[nodiscard]] std::optional<CellPath> of(const PaintedPath& path) const {
        CellPath result{&path, {}, 0};
        for (const PathLine& line : path.lines) {
            const auto half = halfLine(line);
            if (!half) {
                return std::nullopt;
            }
            result.lines.push_back(*half);
            result.width = std::max(result.width, line.width * m_scale);
        }
        return result.lines.empty() || result.width > kMostWidth ? std::nullopt
                                                                 : std::optional(result);
    }

    /// How long those of its lines in the grid are that are no symbols' strokes.
    [[nodiscard]] double longLength(const PaintedPath& path) const {
        const cv::Rect2d grid(-kNear, -kNear, m_columns + 2 * kNear, m_rows + 2 * kNear);
        double sum = 0;
        for (const PathLine& line : path.lines) {
            const cv::Point2d from = through(m_toCells, line.from);
            const cv::Point2d to = through(m_toCells, line.to);
            const double length = cv::norm(to - from);
            sum += length > kStroke && grid.contains(from) && grid.contains(to) ? length : 0;
        }
        return sum;
    }

    /// The place in half cells that a round path is around; not the middle of a cell, where a
    /// symbol is.
    [[nodiscard]] std::optional<cv::Point> knotAt(const PaintedPath& path) const {
        if (!path.round || path.round->width * m_scale > kMostKnot) {
            return std::nullopt;
        }
        const auto at = halfPlace((path.round->tl() + path.round->br()) / 2, kNear);
        return at && (at->x % 2 == 0 || at->y % 2 == 0) ? at : std::nullopt;
    }

    /// Whether it lies along the border only.
    [[nodiscard]] bool isFrame(const CellPath& path) const {
        const cv::Point most(2 * m_columns, 2 * m_rows);
        return std::ranges::all_of(path.lines, [&](const HalfLine& line) {
            return (line[0] == line[2] && (line[0] == 0 || line[0] == most.x)) ||
                   (line[1] == line[3] && (line[1] == 0 || line[1] == most.y));
        });
    }

    /// Whether all lines along the grid's are of some paths, but for a few that go through: a line
    /// of which a part were taken away would look like a mark of the cells that it is left in.
    [[nodiscard]] bool areAllTold(const PagePaths& page, const std::set<PathPlace>& told) const {
        std::map<std::pair<bool, int>, double> rest;
        for (const PaintedPath& path : page.paths) {
            for (const PathLine& line : path.lines) {
                const cv::Point2d from = through(m_toCells, line.from);
                const cv::Point2d to = through(m_toCells, line.to);
                for (const bool isUpright : {true, false}) {
                    const double at = isUpright ? from.x : from.y;
                    const double off = isUpright ? to.x - from.x : to.y - from.y;
                    const int most = isUpright ? m_columns : m_rows;
                    const int other = isUpright ? m_rows : m_columns;
                    const double low =
                        std::max(0.0, isUpright ? std::min(from.y, to.y) : std::min(from.x, to.x));
                    const double high =
                        std::min(static_cast<double>(other),
                                 isUpright ? std::max(from.y, to.y) : std::max(from.x, to.x));
                    const bool isAlong = std::abs(off) < kNear &&
                                         std::abs(at - std::round(at)) < 2 * kNear && at > -kNear &&
                                         at < most + kNear && high - low > kLong;
                    if (isAlong && !told.contains(path.place)) {
                        rest[{isUpright, static_cast<int>(std::lround(at))}] += high - low;
                    }
                }
            }
        }
        return std::ranges::all_of(rest, [&](const auto& line) {
            return line.second > kSpanned * (line.first.first ? m_rows : m_columns);
        });
    }

  private:
    [[nodiscard]] std::optional<cv::Point> halfPlace(const cv::Point2d& point, double near) const {
        const cv::Point2d at = 2 * through(m_toCells, point);
        const cv::Point half(static_cast<int>(std::lround(at.x)),
                             static_cast<int>(std::lround(at.y)));
        const bool isNear =
            std::abs(at.x - half.x) < 2 * near && std::abs(at.y - half.y) < 2 * near;
        const bool isInside =
            half.x >= 0 && half.y >= 0 && half.x <= 2 * m_columns && half.y <= 2 * m_rows;
        return isNear && isInside ? std::optional(half) : std::nullopt;
    }

    [[nodiscard]] std::optional<HalfLine> halfLine(const PathLine& line) const {
        // An area's ends may go on by half its width, as a line's do.
        const auto from = halfPlace(line.from, kNear);
        const auto to = halfPlace(line.to, kNear);
        if (from && to && *from != *to) {
            return ordered(*from, *to);
        }
        const cv::Point2d step = line.to - line.from;
        const cv::Point2d end = step * (line.width / (2 * cv::norm(step)));
        const auto shorterFrom = halfPlace(line.from + end, kNear);
        const auto shorterTo = halfPlace(line.to - end, kNear);
        if (shorterFrom && shorterTo && *shorterFrom != *shorterTo) {
            return ordered(*shorterFrom, *shorterTo);
        }
        return std::nullopt;
    }

    static HalfLine ordered(const cv::Point& one, const cv::Point& other) {
        const bool isOrdered = std::tuple(one.x, one.y) < std::tuple(other.x, other.y);
        const cv::Point& from = isOrdered ? one : other;
        const cv::Point& to = isOrdered ? other : one;
        return {from.x, from.y, to.x, to.y};
    }

    cv::Matx33d m_toCells;
    double m_scale = 1;
    int m_columns;
    int m_rows;
};

/// All lines of one look, judged together.
class LinesOfLook {
  public:
    LinesOfLook(int columns, int rows, bool hasAreas)
        : m_columns(columns), m_rows(rows), m_hasAreas(hasAreas) {}

    void add(const CellPath& path) {
        m_paths.push_back(path);
        for (const HalfLine& line : path.lines) {
            m_length += lengthOf(line);
        }
    }

    /// Lines that end elsewhere, as pieces of a broken grid's do.
    void addOdd(double length) { m_odd += length; }

    [[nodiscard]] bool isBackstitch() const {
        return !m_hasAreas && m_length >= kLeastLength && m_odd <= kMostOdd * m_length &&
               !isOfGrid() && !areSymbols() && !areMarks(allLines());
    }

    /// The grid's own lines, or edges of cells.
    [[nodiscard]] bool isOfGrid() const { return isGrid() || boxed() > kMostBoxed * m_length; }

    [[nodiscard]] const std::vector<CellPath>& paths() const { return m_paths; }

    [[nodiscard]] std::set<HalfLine> allLines() const {
        std::set<HalfLine> all;
        for (const CellPath& path : m_paths) {
            all.insert(path.lines.begin(), path.lines.end());
        }
        return all;
    }

  private:
    using Side = std::tuple<bool, int, int>; ///< upright?, its line, its place along it

    /// Sides of cells that lines lie along.
    [[nodiscard]] std::set<Side> sides() const {
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

    /// Whether most of it goes from one end of the grid to the other as the grid's own lines do:
    /// both ways, or by the same step again and again.
    [[nodiscard]] bool isGrid() const {
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
            if (count >= kSpanned * (isUpright ? m_rows : m_columns)) {
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

    /// Length of sides that belong to a cell with all four.
    [[nodiscard]] double boxed() const {
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

    /// Whether most of what lies within cells is in the next cell too, or crosses itself there: as
    /// symbols do whose strokes go from corner to corner.
    [[nodiscard]] bool areSymbols() const {
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

    std::vector<CellPath> m_paths;
    double m_length = 0;
    double m_odd = 0;
    int m_columns;
    int m_rows;
    bool m_hasAreas;
};

bool isWhite(const std::optional<cv::Vec3b>& colour) {
    constexpr uchar kWhite = 250;
    return colour && std::min({(*colour)[0], (*colour)[1], (*colour)[2]}) >= kWhite;
}

} // namespace

PathLines backstitchAmong(const PagePaths& page, const cv::Matx33d& toCells, int columns,
                          int rows) {
    PathLines result;
    result.lattice = latticeAmong(page, toCells, columns, rows);
    const OnCells onCells(result.lattice.toCells, columns, rows);
    std::vector<std::string> order; // looks as they come first
    std::map<std::string, LinesOfLook> looks;
    for (const PaintedPath& path : page.paths) {
        const auto cells = onCells.of(path);
        const double odd = cells ? 0 : onCells.longLength(path);
        if (cells || odd > 0) {
            const std::string name = path.look + (path.isFilled ? "/area" : "");
            const auto [found, isNew] =
                looks.try_emplace(name, LinesOfLook(columns, rows, path.isFilled));
            if (isNew) {
                order.push_back(name);
            }
            if (cells) {
                found->second.add(*cells);
            }
            found->second.addOdd(odd);
        }
    }
    std::vector<std::set<HalfLine>> linesOf;
    std::vector<PathLines::Look> found;
    for (const std::string& name : order) {
        const LinesOfLook& look = looks.at(name);
        if (look.isOfGrid()) {
            for (const CellPath& path : look.paths()) {
                if (!onCells.isFrame(path) && !isWhite(path.path->colour)) {
                    (path.path->isFilled ? result.edges : result.ofGrid).insert(path.path->place);
                }
            }
        }
        if (!look.isBackstitch()) {
            continue;
        }
        for (const CellPath& path : look.paths()) {
            result.places.insert(path.path->place);
        }
        linesOf.push_back(look.allLines());
        found.push_back({look.paths()[0].path->colour, look.paths()[0].width});
    }
    for (std::size_t i = 0; i < linesOf.size(); ++i) {
        bool isRim = false;
        for (std::size_t k = i + 1; k < linesOf.size(); ++k) {
            isRim |= liesUnder(linesOf[i], linesOf[k]);
        }
        if (isRim) {
            continue;
        }
        for (const HalfLine& line : linesOf[i]) {
            result.lines.push_back({line[0], line[1], line[2], line[3],
                                    static_cast<chart::KeyIndex>(result.looks.size())});
        }
        result.looks.push_back(found[i]);
    }
    std::set<PathPlace> told = result.ofGrid;
    told.insert(result.places.begin(), result.places.end());
    told.insert(result.edges.begin(), result.edges.end());
    if (!onCells.areAllTold(page, told)) {
        result.ofGrid.clear();
        result.edges.clear();
    }
    if (!result.lines.empty()) {
        for (const PaintedPath& path : page.paths) {
            if (path.lines.empty() && onCells.knotAt(path)) {
                result.places.insert(path.place);
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
