#include "trace/detail/lattice_dots.h"

#include "trace/detail/lattice_frame.h"
#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

namespace otherskein::trace::detail {

namespace {

constexpr int kMostDot = 11;    // px
constexpr int kLeastDot = 2;    // px
constexpr double kDotEdge = 24; // of 255, beside what is around it
constexpr std::size_t kFewDots = 60;
constexpr double kLeastBetween = 9; // px from dot to dot
constexpr double kMostBetween = 115;
constexpr double kBeside = 1.2; // px by which a dot lies off its crossing
constexpr double kOfCrossings = 0.5;

/// Middles of the page's commonest small marks, darker or lighter than what is around them.
std::vector<cv::Point2d> dotsOf(const cv::Mat& bgr) {
    cv::Mat grey;
    cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
    const cv::Mat around =
        cv::getStructuringElement(cv::MORPH_RECT, {2 * kMostDot + 1, 2 * kMostDot + 1});
    std::vector<cv::Rect> boxes;
    std::vector<cv::Point2d> middles;
    for (const int kind : {cv::MORPH_BLACKHAT, cv::MORPH_TOPHAT}) {
        cv::Mat marks;
        cv::morphologyEx(grey, marks, kind, around);
        marks = marks > kDotEdge;
        cv::Mat labels;
        cv::Mat stats;
        cv::Mat centres;
        const int count = cv::connectedComponentsWithStats(marks, labels, stats, centres);
        for (int i = 1; i < count; ++i) {
            const cv::Rect box(
                stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
            if (std::min(box.width, box.height) >= kLeastDot &&
                std::max(box.width, box.height) <= kMostDot) {
                boxes.push_back(box);
                middles.emplace_back(centres.at<double>(i, 0), centres.at<double>(i, 1));
            }
        }
    }
    std::array<int, kMostDot + 1> counts{}; // of squares of each side
    for (const cv::Rect& box : boxes) {
        counts[static_cast<std::size_t>(box.width)] += box.width == box.height ? 1 : 0;
    }
    const auto side =
        static_cast<int>(std::distance(counts.begin(), std::ranges::max_element(counts)));
    std::vector<cv::Point2d> dots;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        if (std::abs(boxes[i].width - side) <= 1 && std::abs(boxes[i].height - side) <= 1) {
            dots.push_back(middles[i]);
        }
    }
    return dots;
}

/// Places `start` + i·`step`.
struct Comb {
    double start = 0;
    double step = 0;

    [[nodiscard]] int nearest(double place) const {
        return static_cast<int>(std::lround((place - start) / step));
    }
    [[nodiscard]] bool has(double place) const {
        return std::abs(start + nearest(place) * step - place) <= kBeside;
    }
};

/// The comb on which most of `places` lie; `across` are the same dots' places the other way.
std::optional<Comb> combOf(const std::vector<double>& places, const std::vector<double>& across) {
    // From each dot to the next on its line.
    std::vector<std::size_t> order(places.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::ranges::sort(order, {}, [&](std::size_t i) {
        return std::pair{std::lround(across[i] / 2), places[i]};
    });
    std::vector<double> steps;
    for (std::size_t i = 1; i < order.size(); ++i) {
        const double step = places[order[i]] - places[order[i - 1]];
        if (std::abs(across[order[i]] - across[order[i - 1]]) <= kBeside && step > kLeastBetween &&
            step < kMostBetween) {
            steps.push_back(step);
        }
    }
    if (steps.size() < kFewDots / 2) {
        return std::nullopt;
    }
    const double rough = medianOf(steps); // most have a neighbour at the next crossing
    const auto [least, most] = std::ranges::minmax(places);
    std::complex<double> best = 0;
    double found = rough;
    const double finer = 0.05 * rough * rough / std::max(rough, most - least);
    for (double step = 0.95 * rough; step < 1.05 * rough; step += finer) {
        std::complex<double> sum = 0;
        for (const double place : places) {
            sum += std::polar(1.0, 2 * std::numbers::pi * (place - least) / step);
        }
        if (std::abs(sum) > std::abs(best)) {
            best = sum;
            found = step;
        }
    }
    return Comb{least + std::arg(best) / (2 * std::numbers::pi) * found, found};
}

/// From the first to the last of `at` where there are as many as on most lines, or nearly.
std::pair<int, int> fullLines(const std::vector<int>& at) {
    constexpr double kNearly = 0.2; // lines that ink hides show few
    const auto [least, most] = std::ranges::minmax(at);
    std::vector<double> counts(static_cast<std::size_t>(most - least) + 1);
    for (const int one : at) {
        ++counts[static_cast<std::size_t>(one - least)];
    }
    const double full = kNearly * *std::ranges::max_element(counts);
    int first = 0;
    int last = static_cast<int>(counts.size()) - 1;
    while (counts[static_cast<std::size_t>(first)] < full) {
        ++first;
    }
    while (counts[static_cast<std::size_t>(last)] < full) {
        --last;
    }
    return {least + first, least + last};
}

} // namespace

std::optional<Lattice> gridOfDots(const cv::Mat& bgr, const LineMaps& maps) {
    const std::vector<cv::Point2d> dots = dotsOf(bgr);
    if (dots.size() < kFewDots) {
        return std::nullopt;
    }
    std::vector<double> x;
    std::vector<double> y;
    for (const cv::Point2d& dot : dots) {
        x.push_back(dot.x);
        y.push_back(dot.y);
    }
    const auto columns = combOf(x, y);
    const auto rows = combOf(y, x);
    if (!columns || !rows) {
        return std::nullopt;
    }
    std::vector<int> atColumn;
    std::vector<int> atRow;
    for (const cv::Point2d& dot : dots) {
        if (columns->has(dot.x) && rows->has(dot.y)) {
            atColumn.push_back(columns->nearest(dot.x));
            atRow.push_back(rows->nearest(dot.y));
        }
    }
    if (atColumn.size() < kFewDots) {
        return std::nullopt;
    }
    const auto [left, right] = fullLines(atColumn);
    const auto [top, bottom] = fullLines(atRow);
    const double crossings = (right - left + 1.0) * (bottom - top + 1.0);
    if (static_cast<double>(atColumn.size()) < kOfCrossings * crossings) {
        return std::nullopt;
    }
    Lattice grid;
    grid.toPage =
        cv::Matx33d(columns->step, 0, columns->start, 0, rows->step, rows->start, 0, 0, 1);
    grid.pitch = (columns->step + rows->step) / 2;
    const auto frame = frameAround(bgr, maps, grid, {left, top, right - left, bottom - top});
    if (!frame) {
        return std::nullopt;
    }
    grid = grid.from(frame->x, frame->y);
    grid.columns = frame->width;
    grid.rows = frame->height;
    return grid;
}

} // namespace otherskein::trace::detail
