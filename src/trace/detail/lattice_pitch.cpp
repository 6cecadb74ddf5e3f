#include "trace/detail/lattice_pitch.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr double kFinest = 10; // px; 12 is the finest that is looked for
constexpr double kCoarsest = 110;
constexpr double kUsualAspect = 1.7; // of cells that are not square
constexpr double kLeastLine = 3;     // of 255, above what lies between lines
constexpr double kAlike = 0.3;       // of the others: a line as thick
constexpr double kClearly = 1.6;     // how much more a line shows than what lies between lines
constexpr double kSmallCell = 20;    // px
constexpr double kSurelyLines = 30;  // of twice 255, that goes through more at lines than between
constexpr double kRepeats = 0.5;     // of the power near by
constexpr double kLookedAt = 1400;   // px of the page each way: enough lines to be sure

/// New cells of `num` / `den` old ones, the first line at old line `offset` / `den`.
struct Scaling {
    int num = 1;
    int den = 1;
    int offset = 0;

    [[nodiscard]] double factor() const { return static_cast<double>(num) / den; }
    [[nodiscard]] double start() const { return static_cast<double>(offset) / den; }
};

/// The lines of one way over an area, and how far they are apart.
struct Way {
    LineSheet sheet;
    double unit = 0; ///< px from line to line of the lattice as it was found
    int lines = 0;   ///< cells across
};

/// Values of 0 to 255, counted.
struct Histogram {
    std::array<unsigned short, 64> counts{};
    unsigned number = 0;
    unsigned sum = 0;

    void add(uchar value) {
        ++counts[value / 4U];
        ++number;
        sum += value;
    }
    [[nodiscard]] double mean() const { return static_cast<double>(sum) / number; }
    /// What a third of them do not reach.
    [[nodiscard]] double low() const {
        unsigned below = 0;
        for (std::size_t i = 0; i < counts.size(); ++i) {
            below += counts[i];
            if (below * 3 > number) {
                return 4 * static_cast<double>(i) + 2;
            }
        }
        return 255;
    }
};

/// Of many places: what most have, or what all have together where lines show only here and there,
/// as at the borders of colours.
enum class Summary { Low, Mean };

/// What shows at `start`, `start` + `step` … (in units), at each the least of the kinds of place
/// along it, `period` (in units of the other way) apart from one to the next of a kind. A line goes
/// on through all of them; symbols, however regular, end before the border of their cell.
std::vector<double> shownAt(const Way& way, double start, double step, double period, int kinds,
                            Summary summary) {
    const int across = way.sheet.strength.cols;
    const int bins = way.sheet.bins;
    const int reach =
        std::max(1, static_cast<int>(std::lround(std::min(0.12, 0.15 * step) * bins)));
    std::vector<int> places;
    for (double at = start; at * bins - 0.5 < across - reach; at += step) {
        if (at * bins - 0.5 >= reach) {
            places.push_back(static_cast<int>(std::lround(at * bins - 0.5)));
        }
    }
    const auto count = static_cast<std::size_t>(kinds);
    std::vector<Histogram> values(places.size() * count);
    for (int i = 0; i < way.sheet.strength.rows; ++i) {
        const uchar* row = way.sheet.strength.ptr(i);
        const double phase = (i + 0.5) / way.sheet.steps / period;
        const auto kind =
            static_cast<std::size_t>((phase - std::floor(phase)) * kinds + 0.5) % count;
        for (std::size_t k = 0; k < places.size(); ++k) {
            uchar most = 0;
            for (int b = places[k] - reach; b <= places[k] + reach; ++b) {
                most = std::max(most, row[b]);
            }
            values[k * count + kind].add(most);
        }
    }
    std::vector<double> result;
    for (std::size_t k = 0; k < places.size(); ++k) {
        double least = 255;
        for (std::size_t kind = 0; kind < count; ++kind) {
            const Histogram& one = values[k * count + kind];
            if (one.number > 0) {
                least = std::min(least, summary == Summary::Mean ? one.mean() : one.low());
            }
        }
        result.push_back(least);
    }
    return result;
}

double meanOf(const std::vector<double>& values) {
    return values.empty() ? 0
                          : std::accumulate(values.begin(), values.end(), 0.0) /
                                static_cast<double>(values.size());
}

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

struct Candidate {
    Scaling scaling;
    double pitch = 0;
    double lines = 0;   ///< what its lines show where they show least, above the page's grain
    double between = 0; ///< what shows half-way from line to line
    bool isEven = true; ///< no line in two or three is much fainter than the others

    [[nodiscard]] bool isClear() const { return isEven && lines > kClearly * between + kLeastLine; }
};

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

bool isUsual(double wide, double high) {
    return wide < kUsualAspect * high && high < kUsualAspect * wide;
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

/// What shows at each place across, lines that stand out far from the others cut down.
std::vector<double> levelProfile(const Way& way) {
    cv::Mat sums;
    cv::reduce(way.sheet.strength, sums, 0, cv::REDUCE_AVG, CV_64F);
    std::vector<double> profile(sums.begin<double>(), sums.end<double>());
    std::vector<double> sorted = profile;
    std::ranges::sort(sorted);
    const double most = sorted[sorted.size() * 9 / 10];
    double mean = 0;
    for (double& one : profile) {
        one = std::min(one, most);
        mean += one / static_cast<double>(profile.size());
    }
    for (double& one : profile) {
        one -= mean;
    }
    return profile;
}

/// Logarithms of a profile's power by frequency, in units of 1 / (size of the transform).
struct Spectrum {
    std::vector<double> logs;
    double unit = 0; ///< of those steps for one line of the lattice

    [[nodiscard]] double at(double timesUnit) const {
        const auto i = static_cast<std::size_t>(std::lround(timesUnit * unit));
        return i < logs.size() ? logs[i] : logs.back();
    }
};

Spectrum spectrumOf(const Way& way) {
    constexpr double kOfMost = 0.02; // less is what bold lines leave, and grain
    const std::vector<double> profile = levelProfile(way);
    const int size = cv::getOptimalDFTSize(static_cast<int>(8 * profile.size()));
    cv::Mat padded(1, size, CV_64F, cv::Scalar(0));
    for (std::size_t i = 0; i < profile.size(); ++i) {
        const double turn = 2 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                            static_cast<double>(profile.size());
        padded.at<double>(static_cast<int>(i)) = profile[i] * (0.5 - 0.5 * std::cos(turn));
    }
    cv::Mat packed;
    cv::dft(padded, packed);
    Spectrum spectrum;
    spectrum.unit = static_cast<double>(size) / way.sheet.bins;
    std::vector<double> powers{0};
    for (int i = 1; 2 * i < size; ++i) {
        const double real = packed.at<double>(2 * i - 1);
        const double imaginary = packed.at<double>(2 * i);
        powers.push_back(real * real + imaginary * imaginary);
    }
    const double least = kOfMost * *std::ranges::max_element(powers) + 1e-6;
    for (const double one : powers) {
        spectrum.logs.push_back(std::log(one + least));
    }
    return spectrum;
}

struct Period {
    double stands = -1; ///< how surely its harmonics stand out from what lies between them
    double factor = 1;  ///< new cells of that many old ones, as the page has it
};

/// How much what repeats about every `factor` cells stands out from what does not.
Period periodNearFactor(const Spectrum& spectrum, const Way& way, double factor) {
    constexpr double kMostOff = 0.025; // of the pitch
    constexpr double kLeastBins = 3;   // of the finest harmonic
    constexpr double kMostHarmonics = 6;
    const double lobe = 2.0 / way.lines;
    const double most = way.sheet.bins / kLeastBins; // frequency, in lines of the lattice
    Period best{-1, factor};
    const int steps = 10;
    for (int k = -steps; k <= steps; ++k) {
        const double base = 1 / (factor * (1 + kMostOff * k / steps));
        double sumIn = 0;
        double sumOut = 0;
        double squares = 0;
        int in = 0;
        int out = 0;
        for (int h = 1; h * base <= most && h <= kMostHarmonics; ++h, ++in) {
            const double one = spectrum.at(h * base);
            sumIn += one;
            squares += one * one;
        }
        const double top = std::min(most, kMostHarmonics * base + base / 2);
        const double step = std::min(0.5, base / 2);
        for (double f = std::max(step, lobe); f <= top; f += step) {
            const double near = std::abs(f - std::round(f / base) * base);
            if (near > std::min(0.26, 0.4 * base)) {
                const double one = spectrum.at(f);
                sumOut += one;
                squares += one * one;
                ++out;
            }
        }
        if (in < 1 || out < 3) {
            continue;
        }
        const double variance = (squares - sumIn * sumIn / in - sumOut * sumOut / out) / (in + out);
        const double stands =
            (sumIn / in - sumOut / out) / std::sqrt((variance + 0.5) * (1.0 / in + 1.0 / out));
        if (stands > best.stands) {
            best = {stands, factor * (1 + kMostOff * k / steps)};
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

struct Choice {
    Scaling scaling;
    Period period;
};

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
    if (!byLines) {
        byLines = clearest(ofColumns, ofRows);
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
            const double stands = columnPeriods[i].stands + rowPeriods[k].stands +
                                  (isByLines ? (isClear ? kForLines : kForLines / 3) : 0);
            if (stands > most) {
                most = stands;
                best = {{isByLines ? byLines->first : ofColumns[i].scaling, columnPeriods[i]},
                        {isByLines ? byLines->second : ofRows[k].scaling, rowPeriods[k]}};
            }
        }
    }
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

namespace {

Way wayOver(const LineMaps& maps, const Lattice& grid, const cv::Rect& area, bool alongX) {
    const cv::Point2d unit = grid.cellSize(area);
    const LineMap& map = alongX ? maps.x : maps.y;
    const double along = alongX ? unit.x : unit.y;
    return {
        lineSheetOf(map, alongX, grid, area, std::max(4, static_cast<int>(along / map.strip)), 16),
        alongX ? unit.y : unit.x, alongX ? area.height : area.width};
}

/// What goes through most of the page at these places, and where it does most, as bold lines.
double goesThrough(const Way& way, double start) {
    std::vector<double> shown = shownAt(way, start, 1, 1, 3, Summary::Low);
    if (shown.empty()) {
        return 0;
    }
    const double mean = meanOf(shown);
    const auto high = shown.begin() + static_cast<std::ptrdiff_t>(shown.size() * 9 / 10);
    std::ranges::nth_element(shown, high);
    return mean + *high;
}

} // namespace

LineEvidence standOut(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                      bool isRow) {
    const Way way = wayOver(maps, lattice, area, isRow);
    return {goesThrough(way, 1), goesThrough(way, 0.5)};
}

int slipOf(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area, bool isRow,
           double* share) {
    constexpr int kHarmonics = 2;
    const Way way = wayOver(maps, lattice, area, isRow);
    const std::vector<double> profile = levelProfile(way);
    const int most = std::max(3, way.lines / 5);
    std::vector<double> powers;
    for (int slip = -most; slip <= most; ++slip) {
        double power = 0;
        for (int harmonic = 1; harmonic <= kHarmonics; ++harmonic) {
            const std::complex<double> turn =
                std::polar(1.0, -2 * std::numbers::pi * harmonic * (way.lines + slip) /
                                    static_cast<double>(profile.size()));
            std::complex<double> sum = 0;
            std::complex<double> at = 1;
            for (const double one : profile) {
                sum += one * at;
                at *= turn;
            }
            power += std::norm(sum);
        }
        powers.push_back(power);
    }
    const double sum = std::accumulate(powers.begin(), powers.end(), 1e-9);
    *share = powers[static_cast<std::size_t>(most)] / sum;
    return static_cast<int>(std::ranges::max_element(powers) - powers.begin()) - most;
}

bool repeatsThrough(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area) {
    constexpr double kTimes = 2;
    constexpr double kLeast = 8; // of twice 255
    return std::ranges::all_of(std::array{false, true}, [&](bool isRow) {
        double share = 0;
        const LineEvidence through = standOut(maps, lattice, area, isRow);
        return through.atLines > kTimes * through.between + kLeast &&
               slipOf(maps, lattice, area, isRow, &share) == 0 && share > kRepeats;
    });
}

bool showsLines(const LineMaps& maps, const Lattice& grid) {
    const cv::Rect area(0, 0, grid.columns, grid.rows);
    for (const bool alongX : {true, false}) {
        const Way way = wayOver(maps, grid, area, alongX);
        const LineEvidence through{goesThrough(way, 1), goesThrough(way, 0.5)};
        double share = 0;
        const bool repeats = slipOf(maps, grid, area, alongX, &share) == 0 && share > kRepeats &&
                             through.atLines > kSurelyLines;
        if (through.stands() < kSurelyLines && !repeats &&
            meanOf(shownAt(way, 1, 1, 1, 3, Summary::Mean)) <=
                meanOf(shownAt(way, 0.5, 1, 1, 3, Summary::Mean))) {
            return false;
        }
    }
    return true;
}

} // namespace otherskein::trace::detail
