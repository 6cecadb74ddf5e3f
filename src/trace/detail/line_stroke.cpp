#include "trace/detail/line_stroke.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr float kTellable = 45;     // BGR that ink must differ from the ground it lies on
constexpr double kTwoInks = 60;     // BGR
constexpr double kInked = 0.93;     // share of a stroke's middle that has its colour
constexpr double kFull = 0.8;       // and of what lies a third of its width beside the middle
constexpr int kMostGap = 2;         // px
constexpr double kMostShift = 0.06; // of a cell
constexpr double kBeside = 1.8;     // px from a stroke's rim, where another colour should be

/// A way between two points in half cells.
struct Way {
    cv::Point2d start;
    cv::Point2d step; ///< all of it
    cv::Point2d beside;
    double length = 0;

    Way(const cv::Point& from, const cv::Point& to, int cell)
        : start(cv::Point2d(from) * (cell / 2.0)), step(cv::Point2d(to - from) * (cell / 2.0)),
          length(std::hypot(step.x, step.y)) {
        beside = cv::Point2d(-step.y, step.x) * (1 / length);
    }
    [[nodiscard]] cv::Point2d at(double along, double across) const {
        return start + step * along + beside * across;
    }
};

/// How far the middle of the ink lies beside a way, in the mean of a few places.
template <typename IsOn>
double shiftOf(const IsOn& isOn, double width, double most) {
    double sum = 0;
    int count = 0;
    for (const double along : {0.15, 0.25, 0.35, 0.45, 0.55, 0.65, 0.75, 0.85}) {
        double left = 0;
        double right = 0;
        while (left < width && isOn(along, -left)) {
            left += 0.5;
        }
        while (right < width && isOn(along, right)) {
            right += 0.5;
        }
        if (left < width && right < width) {
            sum += (right - left) / 2;
            ++count;
        }
    }
    return count > 2 ? std::clamp(sum / count, -most, most) : 0;
}

} // namespace

Stroke::Stroke(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds, const cv::Vec3f& colour,
               const cv::Vec3f& ink)
    : m_sheet(sheet), m_grounds(grounds), m_colour(colour), m_ink(ink),
      m_isInk(cv::norm(colour - ink) < kTwoInks || cv::norm(colour) < cv::norm(ink)) {}

Stroke::Ink Stroke::at(const cv::Point2d& place) const {
    const cv::Mat& straight = m_sheet.straight;
    const int x = std::clamp(static_cast<int>(std::floor(place.x)), 0, straight.cols - 1);
    const int y = std::clamp(static_cast<int>(std::floor(place.y)), 0, straight.rows - 1);
    const auto cell =
        static_cast<std::size_t>(y / m_sheet.cell * m_sheet.columns + x / m_sheet.cell);
    const cv::Vec3f& ground = m_grounds[cell];
    const cv::Vec3f way = m_colour - ground;
    const float length = way.dot(way);
    if (length < kTellable * kTellable) {
        return Ink::Unknown;
    }
    const cv::Vec3f pixel(straight.at<cv::Vec3b>(y, x));
    const cv::Vec3f own = pixel - ground;
    const float share = own.dot(way) / length;
    if (share < 0.5F) {
        return Ink::Off;
    }
    if (!m_isInk) {
        const cv::Vec3f toColour = pixel - m_colour;
        const cv::Vec3f toInk = pixel - m_ink;
        if (toInk.dot(toInk) < toColour.dot(toColour) / 4) {
            return Ink::Off;
        }
    }
    const cv::Vec3f rest = own - way * share;
    return rest.dot(rest) < std::max(kTellable * kTellable, length / 6) ? Ink::On : Ink::Off;
}

bool Stroke::runs(const cv::Point& from, const cv::Point& to, double width,
                  StrokeCover& cover) const {
    const Way way(from, to, m_sheet.cell);
    for (const double along : {0.5, 0.1, 0.9, 0.3, 0.7}) {
        if (at(way.at(along, 0)) == Ink::Off) {
            return false;
        }
    }
    // What is found may lie a little beside its way where the page is bent.
    const double shift =
        shiftOf([&](double along, double across) { return at(way.at(along, across)) == Ink::On; },
                width, kMostShift * m_sheet.cell);
    const int steps = std::max(6, static_cast<int>(way.length));
    const double rim = width / 2 + kBeside;
    const int most = static_cast<int>((1 - kInked) * steps) + 1;
    int missing = 0;
    int gap = 0;
    int thin = 0;
    double offs = 0;
    cover = {};
    cover.all = steps;
    for (int k = 0; k < steps; ++k) {
        const double along = (k + 0.5) / steps;
        const Ink middle = at(way.at(along, 0));
        gap = middle == Ink::Off ? gap + 1 : 0;
        if (middle == Ink::Off && (++missing > most || gap > kMostGap)) {
            return false;
        }
        thin += at(way.at(along, shift + width / 3)) == Ink::Off ? 1 : 0;
        thin += at(way.at(along, shift - width / 3)) == Ink::Off ? 1 : 0;
        const Ink left = at(way.at(along, shift + rim));
        const Ink right = at(way.at(along, shift - rim));
        if (left == Ink::Unknown || right == Ink::Unknown) {
            continue;
        }
        ++cover.samples;
        if (left == Ink::Off && right == Ink::Off) {
            ++cover.clear;
            double sum = 0;
            int count = 0;
            for (double across = shift - rim; across <= shift + rim; across += 0.5) {
                if (at(way.at(along, across)) == Ink::On) {
                    sum += across;
                    ++count;
                }
            }
            const double off = count > 0 ? sum / count : rim;
            offs += off * off;
        }
    }
    cover.off = std::sqrt(offs / std::max(1, cover.clear));
    return thin <= (1 - kFull) * 2 * steps + 1;
}

double Stroke::widthAlong(const cv::Point& from, const cv::Point& to) const {
    const Way way(from, to, m_sheet.cell);
    const double reach = 0.4 * m_sheet.cell;
    std::vector<double> widths;
    constexpr int kPlaces = 24;
    for (int k = 0; k < kPlaces; ++k) {
        const double along = (k + 0.5) / kPlaces;
        const auto extent = [&](double sign) {
            double across = 0;
            while (across < reach && at(way.at(along, sign * across)) == Ink::On) {
                across += 0.5;
            }
            return across;
        };
        const double left = extent(1);
        const double right = extent(-1);
        if (left > 0 && right > 0 && std::max(left, right) < reach) {
            widths.push_back(left + right - 0.5);
        }
    }
    if (widths.size() < kPlaces / 2) {
        return 0;
    }
    std::ranges::sort(widths);
    const double middle = widths[widths.size() / 2];
    const auto like = std::ranges::count_if(
        widths, [&](double one) { return std::abs(one - middle) < 0.25 * middle + 0.5; });
    return like * 10 >= static_cast<std::ptrdiff_t>(widths.size()) * 7 ? middle : 0;
}

} // namespace otherskein::trace::detail
