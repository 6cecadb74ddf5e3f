#include "trace/detail/path_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr double kNear = 0.07;        // cells by which an end may lie off
constexpr double kLeastLength = 2;    // cells, of all lines of one look
constexpr double kMostWidth = 0.5;    // cells
constexpr double kSpanned = 0.85;     // of a grid's line
constexpr double kMostSides = 0.4;    // of all sides in the grid
constexpr double kMostSpanned = 0.3;  // of a look's length
constexpr double kMostBoxed = 0.6;    // of it, in sides of cells that have all four
constexpr double kMostRepeated = 0.4; // of what lies within cells, that the next cell has too
constexpr double kMostKnot = 0.75;    // cells
constexpr double kSameLines = 0.8;    // of one look's lines that lie under another's

/// A line in half cells, its ends in order.
using HalfLine = std::array<int, 4>;

/// A path whose lines all go from corner to corner, or middles.
struct CellPath {
    const PaintedPath* path = nullptr;
    std::vector<HalfLine> lines;
    double width = 0; ///< cells
};

cv::Point2d through(const cv::Matx33d& map, const cv::Point2d& point) {
    const cv::Vec3d at = map * cv::Vec3d(point.x, point.y, 1);
    return {at[0] / at[2], at[1] / at[2]};
}

double lengthOf(const HalfLine& line) {
    return std::hypot(line[2] - line[0], line[3] - line[1]) / 2;
}

/// Puts places along one way onto whole cells: what they are to be multiplied with, and what is to
/// be added. `places` with their weights.
cv::Vec2d wholeFit(const std::vector<cv::Vec2d>& places) {
    constexpr int kParts = 40;          // of a cell
    constexpr double kMostOff = 0.3;    // cells
    constexpr double kLeastShare = 0.5; // of the weight, that lies on whole cells then
    std::vector<double> weights(kParts, 0.0);
    double all = 0;
    const auto offOf = [](double place) { return place - std::round(place); };
    for (const cv::Vec2d& one : places) {
        const auto part = static_cast<int>(std::floor((offOf(one[0]) + 0.5) * kParts));
        weights[static_cast<std::size_t>(std::clamp(part, 0, kParts - 1))] += one[1];
        all += one[1];
    }
    double shift = 0;
    double most = 0;
    for (int i = 0; i < kParts; ++i) {
        const double off = (i + 0.5) / kParts - 0.5;
        const auto at = [&](int part) {
            return weights[static_cast<std::size_t>((part + kParts) % kParts)];
        };
        const double sum = at(i - 1) + 2 * at(i) + at(i + 1);
        if (std::abs(off) <= kMostOff && sum > most) {
            most = sum;
            shift = off;
        }
    }
    cv::Vec2d fit(1, -shift);
    for (const double near : {0.15, 0.1, 0.05}) {
        double w = 0;
        double wx = 0;
        double wy = 0;
        double wxx = 0;
        double wxy = 0;
        for (const cv::Vec2d& one : places) {
            const double x = one[0];
            const double y = std::round(fit[0] * x + fit[1]);
            if (std::abs(fit[0] * x + fit[1] - y) < near) {
                w += one[1];
                wx += one[1] * x;
                wy += one[1] * y;
                wxx += one[1] * x * x;
                wxy += one[1] * x * y;
            }
        }
        const double spread = wxx * w - wx * wx;
        if (w < kLeastShare * all || spread < 1e-6 * w * w) {
            return {1, w < kLeastShare * all ? 0 : -shift};
        }
        fit[0] = (wxy * w - wx * wy) / spread;
        fit[1] = (wy - fit[0] * wx) / w;
    }
    return fit;
}

/// `toCells` made exact by the page's upright and level lines.
cv::Matx33d exactMap(const PagePaths& page, const cv::Matx33d& toCells, int columns, int rows) {
    constexpr double kLong = 0.9; // cells; shorter ones may be symbols'
    constexpr double kLevel = 0.02;
    std::vector<cv::Vec2d> x;
    std::vector<cv::Vec2d> y;
    for (const PaintedPath& path : page.paths) {
        for (const PathLine& line : path.lines) {
            const cv::Point2d from = through(toCells, line.from);
            const cv::Point2d to = through(toCells, line.to);
            const cv::Point2d step = to - from;
            const double length = cv::norm(step);
            const bool isInside = std::min(from.x, to.x) > -0.5 && std::min(from.y, to.y) > -0.5 &&
                                  std::max(from.x, to.x) < columns + 0.5 &&
                                  std::max(from.y, to.y) < rows + 0.5;
            if (!isInside || length < kLong) {
                continue;
            }
            if (std::abs(step.x) < kLevel * length) {
                x.emplace_back((from.x + to.x) / 2, std::min(length, 10.0));
            } else if (std::abs(step.y) < kLevel * length) {
                y.emplace_back((from.y + to.y) / 2, std::min(length, 10.0));
            }
        }
    }
    const cv::Vec2d alongX = wholeFit(x);
    const cv::Vec2d alongY = wholeFit(y);
    return cv::Matx33d(alongX[0], 0, alongX[1], 0, alongY[0], alongY[1], 0, 0, 1) * toCells;
}

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

    /// The place in half cells that a round path is around; not the middle of a cell, where a
    /// symbol is.
    [[nodiscard]] std::optional<cv::Point> knotAt(const PaintedPath& path) const {
        if (!path.round || path.round->width * m_scale > kMostKnot) {
            return std::nullopt;
        }
        const auto at = halfPlace((path.round->tl() + path.round->br()) / 2, kNear);
        return at && (at->x % 2 == 0 || at->y % 2 == 0) ? at : std::nullopt;
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
    LinesOfLook(int columns, int rows) : m_columns(columns), m_rows(rows) {}

    void add(const CellPath& path) {
        m_paths.push_back(path);
        for (const HalfLine& line : path.lines) {
            m_length += lengthOf(line);
        }
    }

    [[nodiscard]] bool isBackstitch() const {
        return m_length >= kLeastLength && !isGrid() && boxed() <= kMostBoxed * m_length &&
               !areSymbols();
    }

    [[nodiscard]] const std::vector<CellPath>& paths() const { return m_paths; }

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
    int m_columns;
    int m_rows;
};

/// Whether most of `below` lies under `above`, as the pale rim of a line does.
bool liesUnder(const std::set<HalfLine>& below, const std::set<HalfLine>& above) {
    const auto under =
        std::ranges::count_if(below, [&](const HalfLine& line) { return above.contains(line); });
    return static_cast<double>(under) >= kSameLines * static_cast<double>(below.size());
}

} // namespace

PathLines backstitchAmong(const PagePaths& page, const cv::Matx33d& toCells, int columns,
                          int rows) {
    const OnCells onCells(exactMap(page, toCells, columns, rows), columns, rows);
    std::vector<std::string> order; // looks as they come first
    std::map<std::string, LinesOfLook> looks;
    for (const PaintedPath& path : page.paths) {
        const auto cells = path.isFilled ? std::nullopt : onCells.of(path);
        if (cells) {
            const auto [found, isNew] = looks.try_emplace(path.look, LinesOfLook(columns, rows));
            if (isNew) {
                order.push_back(path.look);
            }
            found->second.add(*cells);
        }
    }
    PathLines result;
    std::vector<std::set<HalfLine>> linesOf;
    std::vector<PathLines::Look> found;
    for (const std::string& name : order) {
        const LinesOfLook& look = looks.at(name);
        if (!look.isBackstitch()) {
            continue;
        }
        std::set<HalfLine> lines;
        for (const CellPath& path : look.paths()) {
            lines.insert(path.lines.begin(), path.lines.end());
            result.places.insert(path.path->place);
        }
        linesOf.push_back(std::move(lines));
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
