#include "trace/detail/lattice_frame.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr int kFrameSteps = 4;      // of a cell along its lines
constexpr int kFrameBins = 16;      // of a cell across
constexpr int kMostTooMany = 2;     // rows of numbers that may have been taken for cells
constexpr int kLongAgain = 10;      // steps that it goes on behind what hides it
constexpr int kMostGap = 16;        // steps, those with them
constexpr int kMostBeyond = 3;      // steps by which a line may go on past its corner, as ticks do
constexpr int kMostPast = 2;        // where lines are left out behind it
constexpr double kLeastOfWay = 0.9; // of its way that a line must be seen on
constexpr double kMostTimes = 3;    // the known cells: else it is the page's own frame
constexpr int kMostAside = 400;     // cells

/// A line of the lattice and where it begins and ends, in steps.
struct Stretch {
    int line = 0;
    int first = 0;
    int last = 0; ///< behind it
};

/// What of the page may hold the frame: cells near the known ones that lie on it.
cv::Rect cellsOnPage(const cv::Mat& page, const Lattice& lattice, const cv::Rect& cells) {
    const auto isOn = [&](double column, double row) {
        const cv::Point2d at = lattice.corner(column, row);
        return at.x > -lattice.pitch / 2 && at.y > -lattice.pitch / 2 &&
               at.x < page.cols + lattice.pitch / 2 && at.y < page.rows + lattice.pitch / 2;
    };
    const auto steps = [&](const cv::Point2d& from, const cv::Point2d& step) {
        int count = 0;
        while (count < kMostAside &&
               isOn(from.x + step.x * (count + 1), from.y + step.y * (count + 1))) {
            ++count;
        }
        return count;
    };
    const double middleX = cells.x + cells.width / 2.0;
    const double middleY = cells.y + cells.height / 2.0;
    const int left = steps({double(cells.x), middleY}, {-1, 0});
    const int right = steps({double(cells.br().x), middleY}, {1, 0});
    const int above = steps({middleX, double(cells.y)}, {0, -1});
    const int below = steps({middleX, double(cells.br().y)}, {0, 1});
    return {cells.x - left, cells.y - above, cells.width + left + right,
            cells.height + above + below};
}

/// The lines along one way that go all along cells `from` to `to`, gaps closed.
std::vector<Stretch> stretchesOf(const LineSheet& sheet, int lines, int from, int to) {
    constexpr double kLeast = 24; // of 255
    constexpr double kEven = 0.5; // of its middle strength
    constexpr int kReach = 2;     // bins that a line may lie off
    std::vector<uchar> all(sheet.strength.begin<uchar>(), sheet.strength.end<uchar>());
    const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    std::ranges::nth_element(all, middle);
    const double least = std::max(kLeast, 2.0 * *middle);
    const int length = sheet.strength.rows;
    std::vector<Stretch> result;
    for (int line = 0; line <= lines; ++line) {
        const int place = line * sheet.bins;
        const auto strengthAt = [&](int step) {
            const uchar* row = sheet.strength.ptr(step);
            const int end = std::min(sheet.strength.cols, place + kReach);
            return *std::max_element(row + std::max(0, place - kReach), row + end);
        };
        const auto isSeen = [&](int step) { return strengthAt(step) >= least; };
        int seen = 0;
        int first = from * sheet.steps;
        int last = to * sheet.steps;
        std::vector<uchar> strengths;
        for (int step = first; step < last; ++step) {
            seen += isSeen(step) ? 1 : 0;
            strengths.push_back(strengthAt(step));
        }
        std::ranges::sort(strengths);
        // A row of digits is seen all along too, but now more, now less.
        const auto tenth = strengths.size() / 10;
        if (seen < kLeastOfWay * (last - first) ||
            strengths[tenth] < kEven * strengths[strengths.size() / 2]) {
            continue;
        }
        // Behind a gap it must go on for longer than a number beside its end would.
        const auto goOn = [&](int start, int way) {
            int end = start;
            int run = kLongAgain;
            for (int at = start + way, gap = 0; at >= 0 && at < length && gap <= kMostGap;
                 at += way) {
                run = isSeen(at) ? run + 1 : 0;
                gap = run >= kLongAgain ? 0 : gap + 1;
                end = run >= kLongAgain ? at : end;
            }
            return end;
        };
        first = goOn(first, -1);
        last = goOn(last - 1, 1) + 1;
        while (first < last && !isSeen(first)) {
            ++first;
        }
        while (last > first && !isSeen(last - 1)) {
            --last;
        }
        result.push_back({line, first, last});
    }
    return result;
}

bool endsAt(const Stretch& one, int first, int last, int past) {
    return one.first >= first * kFrameSteps - past && one.last <= last * kFrameSteps + past;
}

/// Whether nearly all of a frame's lines across, `from` to `to`, end at these two lines: none goes
/// on behind it.
bool mostEndAt(const std::vector<Stretch>& across, int from, int to, int first, int last,
               int past) {
    constexpr double kMost = 0.8;
    const auto isOfFrame = [&](const Stretch& one) { return one.line >= from && one.line <= to; };
    const auto all = std::ranges::count_if(across, isOfFrame);
    const auto count = std::ranges::count_if(across, [&](const Stretch& one) {
        return isOfFrame(one) && endsAt(one, first, last, past);
    });
    return static_cast<double>(count) >= kMost * static_cast<double>(all);
}

bool isFromTo(const Stretch& one, int first, int last) {
    const int a = first * kFrameSteps;
    const int b = last * kFrameSteps;
    return one.first <= a + 1 && one.first >= a - kMostBeyond && one.last >= b - 1 &&
           one.last <= b + kMostBeyond;
}

/// The line at which nearly all of these end that would end at `side`; at most a few cells before
/// it. `ways` is 1 if they end there, -1 if they begin. `along` are the whole lines the other way.
int endOf(const std::vector<Stretch>& across, const std::vector<Stretch>& along, int side,
          int way) {
    constexpr int kMostBefore = 6; // cells, if a line ends them
    constexpr std::size_t kFewest = 3;
    constexpr std::size_t kMany = 8; // that need no such line for one cell
    constexpr double kMost = 0.8;
    if (across.size() < kFewest) {
        return side;
    }
    for (int before = 0; before <= kMostBefore; ++before) {
        const int line = side - way * before;
        const auto count = std::ranges::count_if(across, [&](const Stretch& one) {
            return std::abs((way > 0 ? one.last : one.first) - line * kFrameSteps) <= 1;
        });
        if (static_cast<double>(count) >= kMost * static_cast<double>(across.size())) {
            const bool isLine = std::ranges::find(along, line, &Stretch::line) != along.end();
            return isLine || (before == 1 && across.size() >= kMany) ? line : side;
        }
    }
    return side;
}

/// All whole lines near the known cells, and what of the page they were looked for on.
struct WholeLines {
    cv::Rect area;
    cv::Rect known; ///< in cells of the area
    cv::Rect core;  ///< what surely is of the grid
    std::vector<Stretch> rows;
    std::vector<Stretch> columns;
};

std::optional<WholeLines> wholeLinesOf(const cv::Mat& bgr, const LineMaps& maps,
                                       const Lattice& lattice, const cv::Rect& cells) {
    WholeLines whole;
    whole.area = cellsOnPage(bgr, lattice, cells);
    whole.known = cells - whole.area.tl();
    const cv::Rect& area = whole.area;
    const cv::Rect core(whole.known.x + kMostTooMany, whole.known.y + kMostTooMany,
                        whole.known.width - 2 * kMostTooMany,
                        whole.known.height - 2 * kMostTooMany);
    if (core.width < 1 || core.height < 1) {
        return std::nullopt;
    }
    whole.core = core;
    whole.rows = stretchesOf(lineSheetOf(maps.x, true, lattice, area, kFrameSteps, kFrameBins),
                             area.height, core.x, core.br().x);
    whole.columns = stretchesOf(lineSheetOf(maps.y, false, lattice, area, kFrameSteps, kFrameBins),
                                area.width, core.y, core.br().y);
    return whole;
}

} // namespace

std::optional<cv::Rect> frameAround(const cv::Mat& bgr, const LineMaps& maps,
                                    const Lattice& lattice, const cv::Rect& cells,
                                    bool mayHaveTicks) {
    const int past = mayHaveTicks ? kMostBeyond : kMostPast;
    const auto whole = wholeLinesOf(bgr, maps, lattice, cells);
    if (!whole) {
        return std::nullopt;
    }
    const auto& [area, known, core, rows, columns] = *whole;
    std::optional<cv::Rect> around; // the smallest around all that is known
    std::optional<cv::Rect> within; // the largest that leaves some out
    const auto isNear = [](int one, int other) { return std::abs(one - other) <= kMostBeyond + 1; };
    const auto has = [](const std::vector<Stretch>& all, int line) {
        return std::ranges::find(all, line, &Stretch::line) != all.end();
    };
    // One cell behind a whole line are numbers.
    const auto isNumbers = [&](const cv::Rect& frame) {
        return (frame.x == known.x - 1 && has(columns, known.x)) ||
               (frame.y == known.y - 1 && has(rows, known.y)) ||
               (frame.br().x == known.br().x + 1 && has(columns, known.br().x)) ||
               (frame.br().y == known.br().y + 1 && has(rows, known.br().y));
    };
    for (const Stretch& left : columns) {
        for (const Stretch& right : columns) {
            if (left.line > core.x || right.line < core.br().x ||
                !isNear(left.first, right.first) || !isNear(left.last, right.last)) {
                continue;
            }
            std::vector<int> tops;
            std::vector<int> bottoms;
            for (const Stretch& row : rows) {
                if (!isFromTo(row, left.line, right.line)) {
                    continue;
                }
                if (row.line <= core.y && isNear(row.line * kFrameSteps, left.first)) {
                    tops.push_back(row.line);
                }
                if (row.line >= core.br().y && isNear(row.line * kFrameSteps, left.last)) {
                    bottoms.push_back(row.line);
                }
            }
            for (const int top : tops) {
                for (const int bottom : bottoms) {
                    const cv::Rect frame(left.line, top, right.line - left.line, bottom - top);
                    if (!isFromTo(left, top, bottom) || !isFromTo(right, top, bottom)) {
                        continue;
                    }
                    if ((frame & known) == known) {
                        if (!isNumbers(frame) && (!around || frame.area() < around->area())) {
                            around = frame;
                        }
                    } else if ((!within || frame.area() > within->area()) &&
                               mostEndAt(rows, top, bottom, left.line, right.line, past) &&
                               mostEndAt(columns, left.line, right.line, top, bottom, past)) {
                        within = frame;
                    }
                }
            }
        }
    }
    if (around && around->area() > kMostTimes * known.area()) {
        around.reset();
    }
    const auto best = around ? around : within;
    return best ? std::optional(*best + area.tl()) : std::nullopt;
}

cv::Rect endedByLines(const cv::Mat& bgr, const LineMaps& maps, const Lattice& lattice,
                      const cv::Rect& cells) {
    const auto whole = wholeLinesOf(bgr, maps, lattice, cells);
    if (!whole) {
        return cells;
    }
    const cv::Rect& known = whole->known;
    // The sheet's own edges end elsewhere.
    const auto ofGrid = [](std::vector<Stretch> all, int first, int last) {
        std::erase_if(all, [&](const Stretch& one) {
            return one.line < first - kMostTooMany || one.line > last + kMostTooMany;
        });
        return all;
    };
    const std::vector<Stretch> rows = ofGrid(whole->rows, known.y, known.br().y);
    const std::vector<Stretch> columns = ofGrid(whole->columns, known.x, known.br().x);
    const int left = endOf(rows, columns, known.x, -1);
    const int right = endOf(rows, columns, known.br().x, 1);
    const int top = endOf(columns, rows, known.y, -1);
    const int bottom = endOf(columns, rows, known.br().y, 1);
    return cv::Rect(left, top, right - left, bottom - top) + whole->area.tl();
}

bool hasTenthLines(const LineMaps& maps, const Lattice& lattice, const cv::Rect& cells,
                   bool mayBeFifths) {
    constexpr std::size_t kFewest = 3; // of both ways
    std::size_t lines = 0;
    const auto areTenths = [&](const LineMap& map, bool alongX) {
        const int cellsAcross = alongX ? cells.height : cells.width;
        const LineSheet sheet = lineSheetOf(map, alongX, lattice, cells, kFrameSteps, kFrameBins);
        std::vector<int> inner;
        for (const Stretch& one :
             stretchesOf(sheet, cellsAcross, 1, (alongX ? cells.width : cells.height) - 1)) {
            if (one.line > 0 && one.line < cellsAcross) {
                inner.push_back(one.line);
            }
        }
        lines += inner.size();
        for (const int every : {10, 5}) {
            if (every == 5 && !mayBeFifths) {
                break;
            }
            const auto isOther = [&](int line) { return (line - inner[0]) % every != 0; };
            // One alone is counted from a side.
            const bool isCounted =
                inner.size() > 1 || (inner.size() == 1 && (inner[0] % every == 0 ||
                                                           (cellsAcross - inner[0]) % every == 0));
            // Signs that fill their cells hide some from side to side, not most.
            if (isCounted && std::ranges::none_of(inner, isOther) &&
                2 * static_cast<int>(inner.size()) > (cellsAcross - 1) / every) {
                return true;
            }
        }
        return false;
    };
    return areTenths(maps.x, true) && areTenths(maps.y, false) && lines >= kFewest;
}

} // namespace otherskein::trace::detail
