#include "trace/detail/path_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace otherskein::trace::detail {

namespace {

/// Where a line lies across its way, and how long it is, in cells.
struct Place {
    double at;
    double length;
};

/// What places are to be multiplied with, and what is to be added.
struct Fit {
    double scale = 1;
    double shift = 0;
};

/// By how much most places lie behind whole cells.
double usualShift(const std::vector<Place>& places) {
    constexpr int kParts = 40; // of a cell
    constexpr double kMostOff = 0.3;
    std::array<double, kParts> weights{};
    for (const Place& one : places) {
        const double off = one.at - std::round(one.at);
        const auto part = static_cast<int>(std::floor((off + 0.5) * kParts));
        weights[static_cast<std::size_t>(std::clamp(part, 0, kParts - 1))] += one.length;
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
    return shift;
}

/// Puts places along one way onto whole cells: weighted least squares of those that come near.
Fit wholeFit(const std::vector<Place>& places) {
    constexpr double kLeastShare = 0.5; // of the weight, that lies on whole cells then
    double all = 0;
    for (const Place& one : places) {
        all += one.length;
    }
    Fit fit{1, -usualShift(places)};
    for (const double near : {0.15, 0.1, 0.05}) {
        double w = 0;
        double wx = 0;
        double wy = 0;
        double wxx = 0;
        double wxy = 0;
        for (const Place& one : places) {
            const double place = fit.scale * one.at + fit.shift;
            const double whole = std::round(place);
            if (std::abs(place - whole) < near) {
                w += one.length;
                wx += one.length * one.at;
                wy += one.length * whole;
                wxx += one.length * one.at * one.at;
                wxy += one.length * one.at * whole;
            }
        }
        const double spread = wxx * w - wx * wx;
        if (w < kLeastShare * all) {
            return {};
        }
        if (spread < 1e-6 * w * w) {
            return {1, fit.shift};
        }
        fit.scale = (wxy * w - wx * wy) / spread;
        fit.shift = (wy - fit.scale * wx) / w;
    }
    return fit;
}

/// Whether lines that go through most of the grid lie at whole cells, all of them, and far apart.
bool isTold(const std::vector<Place>& places, const Fit& fit, int lines, int length) {
    constexpr double kThrough = 0.6; // of the grid
    constexpr double kSpread = 0.6;
    constexpr double kOn = 0.03; // cells
    constexpr double kMostOdd = 0.05;
    constexpr std::size_t kFewest = 3;
    std::map<int, double> lengths;
    double on = 0;
    double odd = 0;
    for (const Place& one : places) {
        const double place = fit.scale * one.at + fit.shift;
        if (std::abs(place - std::round(place)) < kOn) {
            on += one.length;
            lengths[static_cast<int>(std::lround(place))] += one.length;
        } else {
            odd += one.length;
        }
    }
    std::erase_if(lengths, [&](const auto& line) { return line.second < kThrough * length; });
    return lengths.size() >= kFewest && odd <= kMostOdd * on &&
           lengths.rbegin()->first - lengths.begin()->first >= kSpread * lines;
}

} // namespace

cv::Point2d through(const cv::Matx33d& map, const cv::Point2d& point) {
    const cv::Vec3d at = map * cv::Vec3d(point.x, point.y, 1);
    return {at[0] / at[2], at[1] / at[2]};
}

PathLattice latticeAmong(const PagePaths& page, const cv::Matx33d& toCells, int columns, int rows) {
    constexpr double kLong = 0.9; // cells; shorter ones may be symbols'
    constexpr double kLevel = 0.02;
    std::vector<Place> x;
    std::vector<Place> y;
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
                x.push_back({(from.x + to.x) / 2, length});
            } else if (std::abs(step.y) < kLevel * length) {
                y.push_back({(from.y + to.y) / 2, length});
            }
        }
    }
    const Fit alongX = wholeFit(x);
    const Fit alongY = wholeFit(y);
    return {cv::Matx33d(alongX.scale, 0, alongX.shift, 0, alongY.scale, alongY.shift, 0, 0, 1) *
                toCells,
            isTold(x, alongX, columns, rows) && isTold(y, alongY, rows, columns)};
}

} // namespace otherskein::trace::detail
