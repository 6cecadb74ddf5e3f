#include "trace/detail/lattice_lines.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kSurelyLines = 30; // of twice 255, that goes through more at lines than between
constexpr double kRepeats = 0.5;    // of the power near by

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

double meanOf(const std::vector<double>& values) {
    return values.empty() ? 0
                          : std::accumulate(values.begin(), values.end(), 0.0) /
                                static_cast<double>(values.size());
}

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

LineEvidence standOut(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                      bool isRow) {
    const Way way = wayOver(maps, lattice, area, isRow);
    return {goesThrough(way, 1), goesThrough(way, 0.5)};
}

std::optional<StrongLines> strongLinesOf(const LineMaps& maps, const Lattice& lattice,
                                         const cv::Rect& area, bool isRow, std::size_t fewest) {
    constexpr double kStrong = 100;   // of 255
    constexpr double kAlike = 0.6;    // of the strongest
    constexpr double kThickest = 0.6; // cells
    constexpr double kFew = 0.35;     // of all lines
    constexpr double kSeen = 0.25;    // of the strongest: other lines are there
    constexpr double kNothing = 0.04; // the same: none are
    constexpr double kFarOff = 0.15;  // cells, at the root of the mean square: on other things
    constexpr double kMostOff = 0.08;
    const Way way = wayOver(maps, lattice, area, isRow);
    const double bin = 1.0 / way.sheet.bins;
    const std::vector<double> shown = shownAt(way, 1.5 * bin, bin, 1, 3, Summary::Low);
    if (shown.empty()) {
        return std::nullopt;
    }
    const double most = std::ranges::max(shown);
    std::vector<double> places;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const std::size_t first = i;
        while (i < shown.size() && shown[i] >= kAlike * most) {
            ++i;
        }
        if (i > first && static_cast<double>(i - first) * bin < kThickest) {
            places.push_back((static_cast<double>(first + i - 1) / 2 + 1.5) * bin);
        }
    }
    if (most < kStrong || places.size() < fewest ||
        static_cast<double>(places.size()) > kFew * way.lines) {
        return std::nullopt;
    }
    const auto offBy = [&](double start, double step) {
        double squares = 0;
        for (const double at : places) {
            const double off = std::remainder(at - start, step);
            squares += off * off;
        }
        return std::sqrt(squares / static_cast<double>(places.size()));
    };
    const double mostWrong = places.size() <= 3 ? 0.01 : 0.03; // of the pitch
    // Whole cells lie between them: the step nearest to the lattice's own that fits.
    const double usual = medianOf(shownAt(way, 1, 1, 1, 3, Summary::Low));
    const double between = medianOf(shownAt(way, 0.5, 1, 1, 3, Summary::Low));
    StrongLines best{kAlike * most, 0, 1,
                     (offBy(0, 1) > kFarOff && usual < between + kSeen * most) ||
                         usual < kNothing * most};
    double leastOff = kMostOff;
    constexpr int kTries = 60;
    for (int k = -kTries; k <= kTries; ++k) {
        const double step = 1 + mostWrong * k / kTries;
        std::complex<double> sum = 0;
        for (const double at : places) {
            sum += std::polar(1.0, 2 * std::numbers::pi * at / step);
        }
        const double start = std::arg(sum) / (2 * std::numbers::pi) * step;
        const double off = offBy(start, step) + kMostOff * std::abs(step - 1) / mostWrong / 4;
        if (off < leastOff) {
            leastOff = off;
            // From the middle, near the lattice's own lines there.
            const double middle = way.lines / 2.0;
            const double line = start + std::round((middle - start) / step) * step;
            best.step = step;
            best.start = line - std::round(line) * step;
        }
    }
    return leastOff < kMostOff ? std::optional(best) : std::nullopt;
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

bool someAreEmpty(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area) {
    constexpr double kNextToNothing = 0.1;
    return std::ranges::any_of(std::array{false, true}, [&](bool isRow) {
        const Way way = wayOver(maps, lattice, area, isRow);
        return std::ranges::any_of(std::array{2, 3}, [&](int each) {
            std::vector<double> shown;
            for (int first = 1; first <= each && way.lines >= 3 * each; ++first) {
                shown.push_back(meanOf(shownAt(way, first, each, 1, 3, Summary::Mean)));
            }
            return !shown.empty() &&
                   std::ranges::min(shown) < kNextToNothing * std::ranges::max(shown);
        });
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
