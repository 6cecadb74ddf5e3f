#include "trace/detail/lattice_samples.h"

#include "trace/detail/plain_lattice.h"
#include "trace/detail/tiles.h"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

/// Where the line is that lies about `behind` cells behind number `across`: symbols may weigh on
/// the whole cell's phase, but are not as near to the line as its own edges.
double centredNear(const std::vector<float>& profile, int bins, int across, double behind) {
    constexpr double kReach = 0.22; // of a cell
    for (int round = 0; round < 2; ++round) {
        const double middle = (across + behind) * bins - 0.5;
        const int from = std::max(0, static_cast<int>(std::ceil(middle - kReach * bins)));
        const int to = std::min(static_cast<int>(profile.size()) - 1,
                                static_cast<int>(std::floor(middle + kReach * bins)));
        float least = 1e30F;
        for (int k = from; k <= to; ++k) {
            least = std::min(least, profile[static_cast<std::size_t>(k)]);
        }
        double sum = 0;
        double weight = 1e-9;
        for (int k = from; k <= to; ++k) {
            const auto one = static_cast<double>(profile[static_cast<std::size_t>(k)] - least);
            sum += one * (k - middle);
            weight += one;
        }
        behind += sum / weight / bins;
    }
    return behind;
}

/// What most of the rows from `from` on have in each column, and, in weak addition, what they have
/// together: lines go through all rows, symbols do not. What most do not have as `least` counts
/// for nothing, if it is more than 0.
std::vector<float> blockProfile(const cv::Mat& strength, int from, int rows, double least) {
    // For borders of colours, which are only here and there.
    const float ofMean = least > 0 ? 0 : 0.1F;
    cv::Mat values;
    cv::transpose(strength.rowRange(from, from + rows), values);
    std::vector<float> result(static_cast<std::size_t>(values.rows));
    for (int k = 0; k < values.rows; ++k) {
        uchar* row = values.ptr(k);
        const int sum = std::accumulate(row, row + rows, 0);
        uchar* quarter = row + rows / 4;
        std::nth_element(row, quarter, row + rows);
        result[static_cast<std::size_t>(k)] =
            std::max(0.0F, static_cast<float>(*quarter - least)) +
            ofMean * static_cast<float>(sum) / static_cast<float>(rows);
    }
    return result;
}

} // namespace

std::vector<LatticeSample> lineSamples(const LineMaps& maps, const Lattice& lattice,
                                       const cv::Rect& area, const LeastLines& least) {
    constexpr int kSteps = 3; // of a cell along its lines
    const int bins = std::clamp(static_cast<int>(std::lround(lattice.pitch / 1.5)), 12, 32);
    // Cells that are looked at together: of large ones there are few.
    const int span = lattice.pitch > 64 || std::min(area.width, area.height) < 12 ? 2 : 6;
    std::vector<LatticeSample> samples;
    std::mutex adding;
    const auto look = [&](const LineMap& map, int alongCells, int acrossCells, bool isRow) {
        const LineSheet sheet = lineSheetOf(map, isRow, lattice, area, kSteps, bins);
        const int step = alongCells > 8 * span ? span : span / 2;
        const int blocks = alongCells < span ? 0 : (alongCells - span) / step + 1;
        cv::parallel_for_({0, blocks}, [&](const cv::Range& range) {
            std::vector<LatticeSample> found;
            for (int along = range.start * step; along < range.end * step; along += step) {
                const std::vector<float> profile = blockProfile(
                    sheet.strength, along * kSteps, span * kSteps, isRow ? least.x : least.y);
                const double middle = static_cast<double>(profile.size()) / 2 - 0.5;
                for (int across = span / 2; across + span / 2 <= acrossCells; across += span / 2) {
                    double strength = 0;
                    const double behind = phaseOf(profile, bins, across * bins - 0.5 - middle,
                                                  span * bins, &strength);
                    if (strength < 0.3 || std::abs(behind) > 0.3) {
                        continue;
                    }
                    const double a = along + span / 2.0;
                    const double b = across + centredNear(profile, bins, across, behind);
                    const cv::Point2d place = isRow ? lattice.corner(area.x + a, area.y + b)
                                                    : lattice.corner(area.x + b, area.y + a);
                    found.push_back({place, double((isRow ? area.y : area.x) + across), isRow});
                }
            }
            const std::lock_guard lock(adding);
            samples.insert(samples.end(), found.begin(), found.end());
        });
    };
    look(maps.x, area.width, area.height, true);
    look(maps.y, area.height, area.width, false);
    return samples;
}

Lattice settled(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                const LeastLines& least) {
    constexpr double kMostChange = 0.1; // of a cell's size: else it found other things than lines
    Lattice result = lattice;
    if (const auto map = settledMap(lineSamples(maps, lattice, area, least), lattice.toPage)) {
        result.toPage = *map;
        const cv::Point2d before = lattice.cellSize(area);
        const cv::Point2d after = result.cellSize(area);
        const auto isNear = [](double one, double other) {
            return std::abs(one / other - 1) < kMostChange;
        };
        if (!isNear(after.x, before.x) || !isNear(after.y, before.y)) {
            return lattice;
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
