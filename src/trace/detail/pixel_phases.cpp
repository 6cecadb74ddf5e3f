#include "trace/detail/pixel_phases.h"

#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kFaint = 0.3; // of a line's depth, below which it may be something beside it

constexpr double kNearLine = 0.9; // px
constexpr double kClearly = 0.42; // px that half of the lines lie off at most, or they are none

/// How far lines lie off the cells' sides, px of the sheet.
struct Drift {
    double first = 0;
    double step = 0; ///< more from each line to the next
};

struct LineAt {
    double number = 0;
    double off = 0;
};

/// Theil and Sen's line, from pairs that lie far apart, then the least squares of what is near it:
/// lines that were rounded to pixels lie on either side in turn.
Drift lineThrough(const std::vector<LineAt>& found) {
    std::vector<double> steps;
    const std::size_t apart = std::max<std::size_t>(1, found.size() / 4);
    for (std::size_t i = 0; i < found.size(); ++i) {
        for (std::size_t k = i + apart; k < found.size(); ++k) {
            steps.push_back((found[k].off - found[i].off) / (found[k].number - found[i].number));
        }
    }
    Drift drift;
    drift.step = medianOf(steps);
    std::vector<double> firsts;
    for (const LineAt& one : found) {
        firsts.push_back(one.off - drift.step * one.number);
    }
    drift.first = medianOf(firsts);
    for (int round = 0; round < 3; ++round) {
        double count = 0;
        double numbers = 0;
        double offs = 0;
        double squares = 0;
        double products = 0;
        for (const LineAt& one : found) {
            if (std::abs(one.off - drift.first - drift.step * one.number) < kNearLine) {
                ++count;
                numbers += one.number;
                offs += one.off;
                squares += one.number * one.number;
                products += one.number * one.off;
            }
        }
        const double spread = count * squares - numbers * numbers;
        if (count < 3 || spread <= 0) {
            break;
        }
        drift.step = (count * products - numbers * offs) / spread;
        drift.first = (offs - drift.step * numbers) / count;
    }
    std::vector<double> rests;
    for (const LineAt& one : found) {
        rests.push_back(std::abs(one.off - drift.first - drift.step * one.number));
    }
    return medianOf(rests) < kClearly ? drift : Drift{};
}

/// `profile`: the mean light across `lines` + 1 lines, the outer ones at its ends.
Drift driftOf(const cv::Mat& profile, int lines, int cell) {
    const int reach = std::max(2, cell / 6) + 1;
    std::vector<LineAt> found;
    for (int line = 1; line < lines; ++line) {
        const auto at = [&](int k) {
            return static_cast<double>(profile.at<float>(line * cell + k));
        };
        double low = at(-reach);
        double high = low;
        for (int k = -reach; k < reach; ++k) {
            low = std::min(low, at(k));
            high = std::max(high, at(k));
        }
        const double beside = (at(-reach) + at(reach - 1)) / 2;
        const bool isDark = beside - low > high - beside;
        const double depth = isDark ? beside - low : high - beside;
        double weights = 0;
        double sum = 0;
        for (int k = -reach; k < reach; ++k) {
            const double own = isDark ? beside - at(k) : at(k) - beside;
            const double weight = std::max(0.0, own - kFaint * depth);
            weights += weight;
            sum += weight * (k + 0.5);
        }
        if (weights > 0) {
            found.push_back({static_cast<double>(line), sum / weights});
        }
    }
    return lineThrough(found);
}

} // namespace

std::vector<cv::Point2f> pixelPhasesOf(const Sheet& sheet) {
    cv::Mat grey;
    cv::cvtColor(sheet.straight, grey, cv::COLOR_BGR2GRAY);
    cv::Mat across;
    cv::Mat down;
    cv::reduce(grey, across, 0, cv::REDUCE_AVG, CV_32F);
    cv::reduce(grey, down, 1, cv::REDUCE_AVG, CV_32F);
    down = down.reshape(1, 1);
    const Drift columns = driftOf(across, sheet.columns, sheet.cell);
    const Drift rows = driftOf(down, sheet.rows, sheet.cell);
    const auto middle = [&sheet](int index, const Drift& drift) {
        return index + 0.5 + (drift.first + drift.step * (index + 0.5)) / sheet.cell;
    };
    std::vector<cv::Point2f> phases;
    phases.reserve(static_cast<std::size_t>(sheet.columns) * static_cast<std::size_t>(sheet.rows));
    for (int row = 0; row < sheet.rows; ++row) {
        for (int column = 0; column < sheet.columns; ++column) {
            const cv::Point2d at = sheet.lattice.corner(middle(column, columns), middle(row, rows));
            phases.emplace_back(static_cast<float>(at.x - std::floor(at.x)),
                                static_cast<float>(at.y - std::floor(at.y)));
        }
    }
    return phases;
}

} // namespace otherskein::trace::detail
