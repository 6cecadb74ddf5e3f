#include "trace/detail/plain_colours.h"

#include "trace/detail/likeness.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr float kSameColour = 2;       // grey levels, which rounding and softening come to
constexpr float kLeastColour = 40;     // of a patch against white paper
constexpr float kPaperShows = 4;       // and of what is no longer the patch
constexpr double kMostOfSide = 1 / 4.; // of what is compared, that a line may cover
constexpr double kRounding = 0.5;      // px
constexpr int kDarkLine = 2;           // px, that a line darker than the patch reaches in
constexpr double kMostTint = 25;       // grey levels, that it comes to at the rim

struct Patch {
    float light = 0;
    cv::Vec2f tint;
    /// Of each side, over its middle: by depth, how much lighter than the patch; then how far both
    /// tints are off the patch's.
    cv::Mat sides;
};

/// `light` at `depth` from one of four sides, `along` it.
float atSide(const cv::Mat& light, int side, int depth, int along) {
    const int far = light.rows - 1 - depth;
    return side == 0   ? light.at<float>(depth, along)
           : side == 1 ? light.at<float>(far, along)
           : side == 2 ? light.at<float>(along, depth)
                       : light.at<float>(along, far);
}

/// Of a picture that is plain but for what runs along its sides: lines, and what is beyond them.
bool isPatch(const cv::Mat& mean, int side, Patch& patch) {
    const cv::Mat light(side, side, CV_32F, const_cast<float*>(mean.ptr<float>(0)));
    const int rim = static_cast<int>(std::floor(kMostOfSide * side));
    double least = 0;
    double most = 0;
    cv::minMaxLoc(light({rim, rim, side - 2 * rim, side - 2 * rim}), &least, &most);
    patch.light = light.at<float>(side / 2, side / 2);
    if (static_cast<float>(most - least) > kSameColour) {
        return false;
    }
    const auto tintAt = [&](int x, int y, int tint) {
        return mean.at<float>(side * side + 2 * (y * kPictureTints + x) + tint);
    };
    const int last = kPictureTints - 1;
    for (int tint = 0; tint < 2; ++tint) {
        patch.tint[tint] = tintAt(1, 1, tint);
        for (int i = 0; i < 4; ++i) {
            if (std::abs(tintAt(1 + i % 2, 1 + i / 2, tint) - patch.tint[tint]) > kSameColour) {
                return false;
            }
        }
    }
    if (std::max({-patch.light, std::abs(patch.tint[0]), std::abs(patch.tint[1])}) < kLeastColour) {
        return false;
    }
    patch.sides.create(4, rim + 2, CV_32F);
    for (int at = 0; at < 4; ++at) {
        for (int depth = 0; depth < rim; ++depth) {
            const float here = atSide(light, at, depth, side / 2);
            patch.sides.at<float>(at, depth) = here - patch.light;
            // A line darker than the patch is outermost and thin.
            const bool isDarkLine = depth < kDarkLine && here < patch.light - kSameColour;
            if (!isDarkLine && here < atSide(light, at, depth + 1, side / 2) - kSameColour) {
                return false;
            }
            // What is a line is the same all along.
            for (int along = rim; along < side - rim; ++along) {
                if (std::abs(atSide(light, at, depth, along) - here) > kPaperShows) {
                    return false;
                }
            }
        }
        for (int tint = 0; tint < 2; ++tint) {
            const auto here = [&](int along) {
                return at == 0   ? tintAt(along, 0, tint)
                       : at == 1 ? tintAt(along, last, tint)
                       : at == 2 ? tintAt(0, along, tint)
                                 : tintAt(last, along, tint);
            };
            if (std::abs(here(1) - here(2)) > kPaperShows) {
                return false;
            }
            patch.sides.at<float>(at, rim + tint) = (here(1) + here(2)) / 2 - patch.tint[tint];
        }
    }
    return true;
}

} // namespace

bool areOneColour(const cv::Mat& one, const cv::Mat& other, int side) {
    Patch a;
    Patch b;
    if (!isPatch(one, side, a) || !isPatch(other, side, b) ||
        std::abs(a.light - b.light) > kSameColour ||
        std::abs(a.tint[0] - b.tint[0]) > kSameColour ||
        std::abs(a.tint[1] - b.tint[1]) > kSameColour) {
        return false;
    }
    // A bold line is at one of two opposite sides, what moves shows more of the one and less of the
    // other, and rounding is of half a pixel: a frame in a patch does none of it.
    const double paper = kRounding * std::abs(static_cast<double>(a.light));
    const cv::Mat steps = a.sides - b.sides;
    const int depths = steps.cols - 2;
    const auto areBoth = [](double first, double second, double most) {
        return first * second > 0 && std::min(std::abs(first), std::abs(second)) > most;
    };
    for (int pair = 0; pair < 4; pair += 2) {
        if (areBoth(cv::sum(steps.row(pair).colRange(0, depths))[0],
                    cv::sum(steps.row(pair + 1).colRange(0, depths))[0], paper)) {
            return false;
        }
        for (int tint = depths; tint < steps.cols; ++tint) {
            if (areBoth(steps.at<float>(pair, tint), steps.at<float>(pair + 1, tint), kMostTint)) {
                return false;
            }
        }
    }
    return true;
}

} // namespace otherskein::trace::detail
