#include "trace/detail/print_noise.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kDrawn = 0.7;     // grey levels of noise that no scan has as little of
constexpr std::size_t kAsked = 24; // members of a group that noise is taken from

/// Light beside the symbol and the mean tints.
std::array<double, 3> groundOf(const cv::Mat& picture, int lights) {
    const auto* at = picture.ptr<float>();
    std::vector<float> sorted(at, at + lights);
    const auto high = sorted.begin() + static_cast<std::ptrdiff_t>(lights * 7 / 10);
    std::ranges::nth_element(sorted, high);
    std::array<double, 3> ground{*high, 0, 0};
    for (int i = lights; i < picture.cols; ++i) {
        ground[static_cast<std::size_t>(1 + (i - lights) % 2)] +=
            static_cast<double>(at[i]) / (kPictureTints * kPictureTints);
    }
    return ground;
}

} // namespace

PrintNoise printNoiseOf(const std::vector<Group>& groups, const Pictures& pictures) {
    std::vector<double> plain;
    std::vector<double> edge;
    std::vector<double> ground;
    std::vector<double> tint;
    std::vector<double> ink;
    std::vector<double> tints;
    std::vector<double> steps;
    for (const Group& group : groups) {
        if (group.members.size() < 6) {
            continue;
        }
        cv::Mat asked;
        std::array<std::vector<double>, 3> grounds;
        const std::size_t step = std::max<std::size_t>(1, group.members.size() / kAsked);
        for (std::size_t i = 0; i < group.members.size(); i += step) {
            asked.push_back(pictures.rows.row(group.members[i]));
            const auto one = groundOf(pictures.rows.row(group.members[i]), pictures.lights());
            for (std::size_t k = 0; k < 3; ++k) {
                grounds[k].push_back(one[k]);
            }
        }
        if (!pictures.steps.empty()) {
            std::array<std::vector<double>, 2> along;
            for (const int i : group.members) {
                const cv::Point2f by = pictures.steps[static_cast<std::size_t>(i)];
                along[0].push_back(by.x);
                along[1].push_back(by.y);
            }
            for (const std::vector<double>& values : along) {
                const double usual = medianOf(values);
                for (const double value : values) {
                    if (value != 0) {
                        steps.push_back(std::abs(value - usual));
                    }
                }
            }
        }
        // All of a symbol's ink: moving it leaves that the same.
        std::vector<double> inks;
        for (int i = 0; i < asked.rows; ++i) {
            const double light = cv::mean(asked.row(i).colRange(0, pictures.lights()))[0];
            inks.push_back(light - grounds[0][static_cast<std::size_t>(i)]);
        }
        if (const double usual = medianOf(inks); std::abs(usual) > 8) {
            for (double& value : inks) {
                value = std::abs(value - usual);
            }
            ink.push_back(1.48 * medianOf(inks) / std::abs(usual));
        }
        for (std::size_t k = 0; k < 3; ++k) {
            const double usual = medianOf(grounds[k]);
            for (double& value : grounds[k]) {
                value = std::abs(value - usual);
            }
            (k == 0 ? ground : tint).push_back(1.48 * medianOf(grounds[k]));
        }
        cv::Mat mean;
        cv::reduce(asked, mean, 0, cv::REDUCE_AVG);
        const cv::Mat rests = Likeness(mean, pictures.side, {}, 1).rests(asked);
        const cv::Mat squares = rests.mul(rests);
        cv::Mat square;
        cv::reduce(squares, square, 0, cv::REDUCE_AVG);
        tints.push_back(std::sqrt(cv::mean(square.colRange(pictures.lights(), square.cols))[0]));
        double flat = 0;
        double flats = 0;
        double steep = 0;
        double slopes = 0;
        double steeps = 0;
        const auto at = [&](int x, int y) { return mean.at<float>(y * pictures.side + x); };
        for (int y = 1; y < pictures.side - 1; ++y) {
            for (int x = 1; x < pictures.side - 1; ++x) {
                const double slope =
                    std::hypot(at(x + 1, y) - at(x - 1, y), at(x, y + 1) - at(x, y - 1)) / 2;
                const double value = square.at<float>(y * pictures.side + x);
                if (slope < 6) {
                    flat += value;
                    ++flats;
                } else if (slope > 25) {
                    steep += value;
                    slopes += slope * slope;
                    ++steeps;
                }
            }
        }
        if (flats > 50) {
            plain.push_back(std::sqrt(flat / flats));
        }
        if (steeps > 30) {
            const double beyond = steep - (flats > 0 ? flat / flats * steeps : 0);
            edge.push_back(std::sqrt(std::max(0.0, beyond / slopes)));
        }
    }
    PrintNoise noise;
    noise.plain = medianOf(plain, noise.plain);
    noise.step = std::max(noise.step, 1.48 * medianOf(steps, 0.0));
    noise.isDrawn = noise.plain < kDrawn;
    noise.edge = std::max(0.12, medianOf(edge, noise.edge));
    noise.tints = medianOf(tints, noise.tints);
    noise.ink = std::clamp(medianOf(ink, noise.ink), 0.02, 0.08);
    noise.ground = std::max(0.7, medianOf(ground, noise.ground));
    noise.tint = std::max(0.7, medianOf(tint, noise.tint));
    return noise;
}

} // namespace otherskein::trace::detail
