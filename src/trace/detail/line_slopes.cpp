#include "trace/detail/line_slopes.h"

#include "trace/detail/line_stroke.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <optional>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr int kLongestStep = 18; // half cells
constexpr double kClear = 0.5;   // share that has another colour to both sides
constexpr double kSeen = 0.5;    // share that lies on other colours than its own
constexpr double kFresh = 0.7;   // share of a line that lies on no better one

/// Which of the directions to the right a node has ink in, in steps of a few degrees.
class Rays {
  public:
    Rays(const Stroke& stroke, const cv::Point2d& node, double half) {
        for (int k = 0; k < kRays; ++k) {
            const double angle = (static_cast<double>(k) / (kRays - 1) - 0.5) * std::numbers::pi;
            const cv::Point2d way(std::cos(angle), std::sin(angle));
            m_inked[static_cast<std::size_t>(k)] =
                stroke.at(node + way * (0.4 * half)) != Stroke::Ink::Off &&
                stroke.at(node + way * (0.8 * half)) != Stroke::Ink::Off;
        }
    }
    [[nodiscard]] bool mayRun(std::size_t ray) const { return m_inked[ray]; }
    [[nodiscard]] static std::size_t rayOf(const cv::Point& way) {
        const double angle = std::atan2(way.y, way.x) / std::numbers::pi + 0.5;
        return static_cast<std::size_t>(std::lround(angle * (kRays - 1)));
    }

  private:
    static constexpr int kRays = 37;
    std::array<bool, kRays> m_inked{};
};

struct Candidate {
    SlopedLine line;
    double score = 0;
};

/// Directions in half cells, none along the grid, none a multiple of another.
std::vector<cv::Point> directions() {
    std::vector<cv::Point> result;
    for (int x = 1; x <= kLongestStep; ++x) {
        for (int y = 1; y <= kLongestStep; ++y) {
            if (std::gcd(x, y) == 1) {
                result.emplace_back(x, y);
                result.emplace_back(x, -y);
            }
        }
    }
    return result;
}

/// Steps of one direction that go on.
struct Chain {
    cv::Point start;
    cv::Point way;
    std::vector<StrokeCover> steps;

    [[nodiscard]] cv::Point end() const { return start + way * static_cast<int>(steps.size()); }

    /// Without ends that are hidden under other things, but for what leads to a corner of cells;
    /// 0 where too little of the line is clear.
    double trimmedScore(double width) {
        const auto isHidden = [](const StrokeCover& one) {
            return one.clear < kClear * one.samples || one.samples < kSeen * one.all;
        };
        const auto isCorner = [](const cv::Point& at) { return at.x % 2 == 0 && at.y % 2 == 0; };
        const auto trim = [&](const auto& atEnd, const auto& pop) {
            while (!steps.empty() && isHidden(atEnd())) {
                // Is the place behind this step a corner? Then no more is needed.
                const StrokeCover last = atEnd();
                const cv::Point kept = pop();
                if (!isCorner(kept) && !steps.empty() && !isHidden(atEnd())) {
                    return std::optional(last);
                }
            }
            return std::optional<StrokeCover>();
        };
        const auto back = trim([&]() -> const StrokeCover& { return steps.back(); },
                               [&] {
                                   steps.pop_back();
                                   return end();
                               });
        if (back) {
            steps.push_back(*back);
        }
        const auto front = trim([&]() -> const StrokeCover& { return steps.front(); },
                                [&] {
                                    steps.erase(steps.begin());
                                    start += way;
                                    return start;
                                });
        if (front) {
            steps.insert(steps.begin(), *front);
            start -= way;
        }
        int all = 0;
        int samples = 0;
        int clear = 0;
        double offs = 0;
        for (const StrokeCover& one : steps) {
            all += one.all;
            samples += one.samples;
            clear += one.clear;
            offs += one.off * one.off * one.clear;
        }
        if (clear < kClear * samples || samples < kSeen * all || samples == 0) {
            return 0;
        }
        const double off = std::sqrt(offs / std::max(1, clear)) / (0.3 * width + 0.6);
        return clear * (1 - std::min(1.0, off * off));
    }
};

std::vector<Candidate> candidatesOf(const Stroke& stroke, const Sheet& sheet, double width,
                                    int kind) {
    const cv::Size points(2 * sheet.columns + 1, 2 * sheet.rows + 1);
    const double half = static_cast<double>(sheet.cell) / 2;
    std::vector<std::pair<cv::Point, Rays>> inked;
    for (int y = 0; y < points.height; ++y) {
        for (int x = 0; x < points.width; ++x) {
            const cv::Point2d node(x * half, y * half);
            // A line's end may fall a pixel short of its point.
            if (stroke.at(node) == Stroke::Ink::On ||
                stroke.at(node - cv::Point2d(1, 1)) == Stroke::Ink::On) {
                inked.emplace_back(cv::Point(x, y), Rays(stroke, node, half));
            }
        }
    }
    const std::vector<cv::Point> ways = directions();
    std::vector<std::vector<Candidate>> found(ways.size());
    cv::parallel_for_({0, static_cast<int>(ways.size())}, [&](const cv::Range& range) {
        for (int w = range.start; w < range.end; ++w) {
            const cv::Point way = ways[static_cast<std::size_t>(w)];
            const std::size_t ray = Rays::rayOf(way);
            std::map<std::pair<int, int>, StrokeCover> steps; // by start
            for (const auto& [from, rays] : inked) {
                const cv::Point to = from + way;
                StrokeCover one;
                if (to.x < points.width && to.y >= 0 && to.y < points.height && rays.mayRun(ray) &&
                    stroke.runs(from, to, width, one)) {
                    steps.emplace(std::pair{from.x, from.y}, one);
                }
            }
            for (const auto& [start, first] : steps) {
                if (steps.contains({start.first - way.x, start.second - way.y})) {
                    continue;
                }
                Chain chain{{start.first, start.second}, way, {}};
                for (auto it = steps.find(start); it != steps.end();
                     it = steps.find({chain.end().x, chain.end().y})) {
                    chain.steps.push_back(it->second);
                }
                if (const double score = chain.trimmedScore(width); score > 0) {
                    found[static_cast<std::size_t>(w)].push_back(
                        {{chain.start.x, chain.start.y, chain.end().x, chain.end().y, kind},
                         score});
                }
            }
        }
    });
    std::vector<Candidate> all;
    for (const auto& list : found) {
        all.insert(all.end(), list.begin(), list.end());
    }
    return all;
}

/// Calls `each` with a point every pixel along a line.
template <typename Each>
void along(const SlopedLine& line, double half, const Each& each) {
    const cv::Point2d from(line.x1 * half, line.y1 * half);
    const cv::Point2d way = cv::Point2d(line.x2 - line.x1, line.y2 - line.y1) * half;
    const int steps = std::max(1, static_cast<int>(std::hypot(way.x, way.y)));
    for (int k = 0; k < steps; ++k) {
        each(from + way * ((k + 0.5) / steps));
    }
}

/// The best lines, each mostly on ink that no better one has.
std::vector<SlopedLine> best(std::vector<Candidate> candidates, const Sheet& sheet, float width) {
    std::ranges::stable_sort(candidates, std::greater<>(), &Candidate::score);
    const double half = static_cast<double>(sheet.cell) / 2;
    cv::Mat used(sheet.straight.size(), CV_8U, cv::Scalar(0));
    std::vector<SlopedLine> result;
    for (const Candidate& one : candidates) {
        int fresh = 0;
        int all = 0;
        along(one.line, half, [&](const cv::Point2d& at) {
            const int x = std::clamp(static_cast<int>(at.x), 0, used.cols - 1);
            const int y = std::clamp(static_cast<int>(at.y), 0, used.rows - 1);
            fresh += used.at<uchar>(y, x) == 0 ? 1 : 0;
            ++all;
        });
        if (fresh < kFresh * all) {
            continue;
        }
        result.push_back(one.line);
        const auto place = [&](int x, int y) {
            return cv::Point(static_cast<int>(std::lround(x * half)),
                             static_cast<int>(std::lround(y * half)));
        };
        cv::line(used, place(one.line.x1, one.line.y1), place(one.line.x2, one.line.y2),
                 cv::Scalar(1), static_cast<int>(std::lround(width)) + 2);
    }
    return result;
}

/// The one cell that a short line lies in, or -1.
int onlyCell(const SlopedLine& line, const Sheet& sheet) {
    const auto [left, right] = std::minmax(line.x1, line.x2);
    const auto [top, bottom] = std::minmax(line.y1, line.y2);
    const int column = left / 2;
    const int row = top / 2;
    return right <= 2 * column + 2 && bottom <= 2 * row + 2 ? row * sheet.columns + column : -1;
}

/// Takes out lines that lie in one cell each where most cells like that one have them too.
void dropSymbols(std::vector<SlopedLine>& lines, const Sheet& sheet, const LikeCells& like) {
    std::map<std::pair<int, int>, int> ends;
    for (const SlopedLine& one : lines) {
        ++ends[{one.x1, one.y1}];
        ++ends[{one.x2, one.y2}];
    }
    // By what cells are like and where in the cell the line lies.
    std::map<std::tuple<int, int, int, int, int>, int> strokes;
    const auto keyOf = [&](const SlopedLine& one, int cell) {
        const int x = 2 * (cell % sheet.columns);
        const int y = 2 * (cell / sheet.columns);
        return std::tuple{like.of[static_cast<std::size_t>(cell)], one.x1 - x, one.y1 - y,
                          one.x2 - x, one.y2 - y};
    };
    for (const SlopedLine& one : lines) {
        if (const int cell = onlyCell(one, sheet); cell >= 0) {
            ++strokes[keyOf(one, cell)];
        }
    }
    std::erase_if(lines, [&](const SlopedLine& one) {
        const int cell = onlyCell(one, sheet);
        if (cell < 0 || ends[{one.x1, one.y1}] > 1 || ends[{one.x2, one.y2}] > 1) {
            return false;
        }
        const auto kind = static_cast<std::size_t>(like.of[static_cast<std::size_t>(cell)]);
        const auto alike = static_cast<int>(like.members[kind].size());
        const int having = strokes[keyOf(one, cell)];
        return having > 3 && 2 * having > alike;
    });
}

} // namespace

std::vector<SlopedLine> slopedLines(const Sheet& sheet, const std::vector<LineKind>& kinds,
                                    const std::vector<cv::Vec3f>& grounds, const LikeCells& like,
                                    const cv::Vec3f& ink) {
    std::vector<SlopedLine> result;
    for (std::size_t n = 0; n < kinds.size(); ++n) {
        const Stroke stroke(sheet, grounds, kinds[n].colour, ink);
        std::vector<SlopedLine> lines = best(
            candidatesOf(stroke, sheet, static_cast<double>(kinds[n].width), static_cast<int>(n)),
            sheet, kinds[n].width);
        if (cv::norm(kinds[n].colour - ink) < 60) {
            dropSymbols(lines, sheet, like);
        }
        result.insert(result.end(), lines.begin(), lines.end());
    }
    return result;
}

} // namespace otherskein::trace::detail
