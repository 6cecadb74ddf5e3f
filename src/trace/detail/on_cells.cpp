#include "trace/detail/on_cells.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr double kNear = 0.07;     // cells by which an end may lie off
constexpr double kStroke = 0.95;   // cells: a symbol's are shorter
constexpr double kLong = 0.6;      // cells: a line along the grid's, not a stroke
constexpr double kMostWidth = 0.5; // cells
constexpr double kSpanned = 0.85;  // of a grid's line
constexpr double kMostKnot = 0.75; // cells
constexpr double kLargest = 2.5;   // cells
constexpr double kMostBeyond = 0.1;

} // namespace

OnCells::OnCells(const cv::Matx33d& toCells, int columns, int rows)
    : m_toCells(toCells), m_columns(columns), m_rows(rows) {
    const cv::Point2d step = through(toCells, {1, 1}) - through(toCells, {0, 0});
    m_scale = (std::abs(step.x) + std::abs(step.y)) / 2;
}

std::optional<CellPath> OnCells::of(const PaintedPath& path) const {
    CellPath result{&path, {}, 0};
    for (const PathLine& line : path.lines) {
        const auto half = halfLine(line);
        if (!half) {
            return std::nullopt;
        }
        result.lines.push_back(*half);
        result.width = std::max(result.width, line.width * m_scale);
    }
    return result.lines.empty() || result.width > kMostWidth ? std::nullopt : std::optional(result);
}

double OnCells::longLength(const PaintedPath& path) const {
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

std::optional<cv::Point> OnCells::knotAt(const PaintedPath& path) const {
    if (!path.round || path.round->width * m_scale > kMostKnot) {
        return std::nullopt;
    }
    const auto at = halfPlace((path.round->tl() + path.round->br()) / 2, kNear);
    return at && (at->x % 2 == 0 || at->y % 2 == 0) ? at : std::nullopt;
}

bool OnCells::isOverEdge(const cv::Rect2d& box) const {
    constexpr double kLargest = 2.5; // cells
    constexpr double kMostBeyond = 0.1;
    const cv::Point2d one = through(m_toCells, box.tl());
    const cv::Point2d other = through(m_toCells, box.br());
    const cv::Rect2d cells(one, other);
    const cv::Rect2d within = cells & cv::Rect2d(0, 0, m_columns, m_rows);
    return within.area() > 0 && cells.width < kLargest && cells.height < kLargest &&
           within.area() < (1 - kMostBeyond) * cells.area();
}

bool OnCells::isFrame(const CellPath& path) const {
    const cv::Point most(2 * m_columns, 2 * m_rows);
    return std::ranges::all_of(path.lines, [&](const HalfLine& line) {
        return (line[0] == line[2] && (line[0] == 0 || line[0] == most.x)) ||
               (line[1] == line[3] && (line[1] == 0 || line[1] == most.y));
    });
}

bool OnCells::areAllTold(const PagePaths& page, const std::set<PathPlace>& told) const {
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

std::optional<cv::Point> OnCells::halfPlace(const cv::Point2d& point, double near) const {
    const cv::Point2d at = 2 * through(m_toCells, point);
    const cv::Point half(static_cast<int>(std::lround(at.x)), static_cast<int>(std::lround(at.y)));
    const bool isNear = std::abs(at.x - half.x) < 2 * near && std::abs(at.y - half.y) < 2 * near;
    const bool isInside =
        half.x >= 0 && half.y >= 0 && half.x <= 2 * m_columns && half.y <= 2 * m_rows;
    return isNear && isInside ? std::optional(half) : std::nullopt;
}

std::optional<HalfLine> OnCells::halfLine(const PathLine& line) const {
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

HalfLine OnCells::ordered(const cv::Point& one, const cv::Point& other) {
    const bool isOrdered = std::tuple(one.x, one.y) < std::tuple(other.x, other.y);
    const cv::Point& from = isOrdered ? one : other;
    const cv::Point& to = isOrdered ? other : one;
    return {from.x, from.y, to.x, to.y};
}

} // namespace otherskein::trace::detail
