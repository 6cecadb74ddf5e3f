#include "trace/detail/lattice_pitch.h"

#include "trace/detail/lattice_choice.h"
#include "trace/detail/lattice_lines.h"
#include "trace/detail/lattice_period.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kFinest = 9; // px; 12 is the finest that is looked for
constexpr double kCoarsest = 110;
constexpr double kAlike = 0.3;     // of the others: a line as thick
constexpr double kSmallCell = 20;  // px
constexpr double kLookedAt = 1400; // px of the page each way: enough lines to be sure

struct Range {
    double least = 255;
    double most = 0;
};

/// The least and the most median of the values that are `modulus` apart.
Range classesOf(const std::vector<double>& values, std::size_t modulus) {
    Range range;
    for (std::size_t first = 0; first < modulus; ++first) {
        std::vector<double> one;
        for (std::size_t i = first; i < values.size(); i += modulus) {
            one.push_back(values[i]);
        }
        const double median = medianOf(std::move(one));
        range.least = std::min(range.least, median);
        range.most = std::max(range.most, median);
    }
    return range;
}

int kindsFor(double pitch) {
    return std::clamp(static_cast<int>(pitch / 6), 3, 6);
}

/// The pitch of `other` that is nearest to square with `pitch`, in its units.
double periodNear(const Way& other, double pitch) {
    double best = 1;
    for (const double factor : {0.1, 0.2, 0.25, 1.0 / 3, 0.5, 2.0 / 3, 1.0, 1.5, 2.0, 3.0}) {
        const auto off = [&](double one) { return std::abs(std::log(one * other.unit / pitch)); };
        if (off(factor) < off(best)) {
            best = factor;
        }
    }
    return best;
}

/// What shows nearly everywhere.
double grainOf(const Way& way, Summary summary) {
    std::vector<double> all = shownAt(way, 0, 0.1, 1, 3, summary);
    if (all.empty()) {
        return 0;
    }
    const auto tenth = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 10);
    std::ranges::nth_element(all, tenth);
    return *tenth;
}

Candidate candidateOf(const Way& way, const Way& other, int num, int den, Summary summary,
                      double grain) {
    Candidate best;
    best.scaling = {num, den, 0};
    best.pitch = way.unit * num / den;
    const double period = periodNear(other, best.pitch);
    const int kinds = kindsFor(period * other.unit);
    const double step = static_cast<double>(num) / den;
    best.lines = -1;
    for (int offset = 0; offset < num; ++offset) {
        const double start = static_cast<double>(offset) / den;
        const std::vector<double> shown = shownAt(way, start, step, period, kinds, summary);
        const Range two = classesOf(shown, 2);
        const Range three = classesOf(shown, 3);
        // Of each five or ten one may be bold: then the others need only be there.
        const double lines = std::min({two.least, three.least, classesOf(shown, 5).least}) - grain;
        if (lines > best.lines) {
            best.lines = lines;
            best.scaling.offset = offset;
            best.isEven = two.least - grain > kAlike * (two.most - grain) &&
                          three.least - grain > kAlike * (three.most - grain);
            best.between =
                medianOf(shownAt(way, start + step / 2, step, period, kinds, summary)) - grain;
        }
    }
    return best;
}

/// All that may be, the finest first.
std::vector<Candidate> candidatesOf(const Way& way, const Way& other, Summary summary) {
    std::vector<Candidate> all;
    const double grain = grainOf(way, summary);
    for (const auto& [num, den] : {std::pair{1, 10},
                                   {1, 5},
                                   {1, 4},
                                   {3, 10},
                                   {1, 3},
                                   {2, 5},
                                   {1, 2},
                                   {2, 3},
                                   {2, 2},
                                   {3, 2},
                                   {2, 1},
                                   {3, 1}}) {
        const double pitch = way.unit * num / den;
        if (pitch >= kFinest && pitch <= kCoarsest && way.lines * den / num >= 4) {
            all.push_back(candidateOf(way, other, num, den, summary, grain));
        }
    }
    return all;
}

using Pair = std::pair<Scaling, Scaling>;

/// The finest two that are clear and make usual cells.
std::optional<Pair> finestClear(const std::vector<Candidate>& columns,
                                const std::vector<Candidate>& rows) {
    std::optional<Pair> best;
    double finest = 1e9;
    for (const Candidate& column : columns) {
        for (const Candidate& row : rows) {
            if (column.isClear() && row.isClear() && isUsual(column.pitch, row.pitch) &&
                column.pitch * row.pitch < finest) {
                finest = column.pitch * row.pitch;
                best = {column.scaling, row.scaling};
            }
        }
    }
    return best;
}

/// Those whose lines stand out most.
Pair clearest(const std::vector<Candidate>& columns, const std::vector<Candidate>& rows) {
    Pair best;
    double most = -1e9;
    for (const Candidate& column : columns) {
        for (const Candidate& row : rows) {
            const double stands = column.lines - column.between + row.lines - row.between;
            if (isUsual(column.pitch, row.pitch) && stands > most) {
                most = stands;
                best = {column.scaling, row.scaling};
            }
        }
    }
    return best;
}

/// How much more shows at the lines of one of the candidates than between them.
double standsOut(const std::vector<Candidate>& all, const Scaling& one) {
    const auto found = std::ranges::find(all, one.factor(),
                                         [](const Candidate& at) { return at.scaling.factor(); });
    return found == all.end() ? 0 : found->lines - found->between;
}

/// Where much is inked all over, thin lines show too seldom for most places to have them, and bold
/// ones stand alone: `pair` five or ten times finer, if all lines are there on the whole.
Pair finerOfBold(const Way& columns, const Way& rows, const Pair& pair) {
    const auto isWhole = [](const Scaling& one) { return one.num == one.den && one.offset == 0; };
    if (!isWhole(pair.first) || !isWhole(pair.second)) {
        return pair;
    }
    const double grainX = grainOf(columns, Summary::Mean);
    const double grainY = grainOf(rows, Summary::Mean);
    for (const int parts : {10, 5}) {
        if (std::min(columns.unit, rows.unit) / parts > kFinest &&
            candidateOf(columns, rows, 1, parts, Summary::Mean, grainX).isClear() &&
            candidateOf(rows, columns, 1, parts, Summary::Mean, grainY).isClear()) {
            return {{1, parts, 0}, {1, parts, 0}};
        }
    }
    return pair;
}

/// How surely what shows repeats at each of the candidates' pitches.
std::vector<Period> periodsOf(const Way& way, const std::vector<Candidate>& all) {
    const Spectrum spectrum = spectrumOf(way);
    std::vector<Period> periods;
    for (const Candidate& one : all) {
        periods.push_back(periodNearFactor(spectrum, way, one.scaling.factor()));
    }
    return periods;
}

std::pair<Choice, Choice> chosen(const Way& columns, const Way& rows) {
    constexpr double kForLines = 1.5; // what lines that are all there outweigh
    std::vector<Candidate> ofColumns;
    std::vector<Candidate> ofRows;
    std::optional<Pair> byLines;
    for (const Summary summary : {Summary::Low, Summary::Mean}) {
        ofColumns = candidatesOf(columns, rows, summary);
        ofRows = candidatesOf(rows, columns, summary);
        byLines = finestClear(ofColumns, ofRows);
        if (byLines) {
            byLines = finerOfBold(columns, rows, *byLines);
            break;
        }
    }
    const bool isClear = byLines.has_value();
    double forLines = kForLines;
    if (!byLines) {
        byLines = clearest(ofColumns, ofRows);
        // Where there is as much between them, they are no lines.
        const bool areLines = standsOut(ofColumns, byLines->first) > kLeastLine &&
                              standsOut(ofRows, byLines->second) > kLeastLine;
        forLines = areLines ? kForLines / 3 : 0;
    }
    // Lines may be faint or hidden, but all that is printed in cells repeats as they do.
    const std::vector<Period> columnPeriods = periodsOf(columns, ofColumns);
    const std::vector<Period> rowPeriods = periodsOf(rows, ofRows);
    std::pair<Choice, Choice> best{{byLines->first, {}}, {byLines->second, {}}};
    double most = -1e9;
    for (std::size_t i = 0; i < ofColumns.size(); ++i) {
        for (std::size_t k = 0; k < ofRows.size(); ++k) {
            if (!isUsual(ofColumns[i].pitch, ofRows[k].pitch)) {
                continue;
            }
            const auto factors = [](const Scaling& one, const Scaling& other) {
                return one.factor() == other.factor();
            };
            const bool isByLines = factors(ofColumns[i].scaling, byLines->first) &&
                                   factors(ofRows[k].scaling, byLines->second);
            if (isClear && !isByLines && leavesLinesOut(ofColumns[i], byLines->first) &&
                leavesLinesOut(ofRows[k], byLines->second)) {
                continue; // patterns repeat too, in steps of cells
            }
            if (!isClear && hasFiner(ofColumns, columnPeriods, i, ofRows, rowPeriods, k)) {
                continue;
            }
            const double stands =
                columnPeriods[i].stands + rowPeriods[k].stands + (isByLines ? forLines : 0);
            if (stands > most) {
                most = stands;
                best = {{isByLines ? byLines->first : ofColumns[i].scaling, columnPeriods[i]},
                        {isByLines ? byLines->second : ofRows[k].scaling, rowPeriods[k]}};
            }
        }
    }
    refineBold(ofColumns, columnPeriods, ofRows, rowPeriods, best);
    return best;
}

/// The step of the new cells in old ones, and where the first begins. Over few lines a lattice may
/// fit badly; what repeats tells their pitch better, and their middle stays.
std::pair<double, double> stepOf(const Choice& choice, double first, double length) {
    constexpr double kSlip = 0.3; // cells, by which lines would miss at the ends
    const double step = choice.scaling.factor();
    const double start = first + choice.scaling.start();
    const double found = choice.period.factor;
    if (choice.period.stands < 1 || std::abs(found / step - 1) * length / step / 2 < kSlip) {
        return {step, start};
    }
    const double middle = std::round((first + length / 2 - start) / step);
    return {found, start + middle * (step - found)};
}

} // namespace

void decidePitch(const LineMaps& fine, const LineMaps& coarse, FoundLattice& found) {
    const cv::Point2d size = found.lattice.cellSize(found.cells);
    const auto middlePart = [](double first, double length, double pitch) {
        const int most = std::max(8, static_cast<int>(kLookedAt / pitch));
        const double more = std::max(1.0, (kTileSide * 0.75 / pitch - length) / 2);
        const int from = static_cast<int>(std::floor(first - more));
        const int count = static_cast<int>(std::ceil(length + 2 * more));
        return count <= most ? std::pair{from, count} : std::pair{from + (count - most) / 2, most};
    };
    const auto [left, columnCount] = middlePart(found.cells.x, found.cells.width, size.x);
    const auto [top, rowCount] = middlePart(found.cells.y, found.cells.height, size.y);
    const cv::Rect area(left, top, columnCount, rowCount);
    // Gaps between small symbols need fine strips, dashes of larger cells coarse ones.
    const LineMaps& maps = std::min(size.x, size.y) < kSmallCell ? fine : coarse;
    const Lattice near = settled(maps, found.lattice, area);
    const cv::Point2d unit = near.cellSize(area);
    const auto isFit = [](double pitch) { return pitch > kFinest / 2 && pitch < 2 * kCoarsest; };
    if (!isFit(unit.x) || !isFit(unit.y)) {
        return; // it did not fit
    }
    const auto wayOf = [&](const LineMap& map, bool alongX) {
        const double across = alongX ? unit.y : unit.x;
        const double along = alongX ? unit.x : unit.y;
        const int steps = std::max(4, static_cast<int>(std::lround(along / map.strip)));
        const int bins = std::max(12, static_cast<int>(std::lround(across / 1.5)));
        return Way{lineSheetOf(map, alongX, near, area, steps, bins), across,
                   alongX ? area.height : area.width};
    };
    const Way rows = wayOf(maps.x, true);
    const Way columns = wayOf(maps.y, false);
    const auto [column, row] = chosen(columns, rows);
    const auto [wide, x] = stepOf(column, area.x, area.width);
    const auto [high, y] = stepOf(row, area.y, area.height);
    found.lattice.toPage = near.toPage * cv::Matx33d(wide, 0, x, 0, high, y, 0, 0, 1);
    found.lattice.pitch = (unit.x * wide + unit.y * high) / 2;
    found.cells = {(found.cells.x - x) / wide, (found.cells.y - y) / high, found.cells.width / wide,
                   found.cells.height / high};
}

} // namespace otherskein::trace::detail
