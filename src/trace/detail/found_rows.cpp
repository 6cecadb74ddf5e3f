#include "trace/detail/found_rows.h"

#include "trace/detail/median.h"

#include "chart/mending.h"
#include "colour/conversion.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr int kLights = kLookSide * kLookSide;

colour::Srgb8 srgbOf(float light, float blueTint, float redTint) {
    const cv::Vec3f bgr = colourOfLook(light, blueTint, redTint);
    const auto byte = [](float value) {
        return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
    };
    return {byte(bgr[2]), byte(bgr[1]), byte(bgr[0])};
}

void setColours(GroupLook& look) {
    const auto tint = [&](int x, int y, int which) {
        return look.mean.at<float>(kLights + 2 * (y * kLookTints + x) + which);
    };
    // Beside the symbol: the corners; the median of them, since a symbol may fill one.
    std::vector<float> corners;
    for (const int y : {2, 3, kLookSide - 4, kLookSide - 3}) {
        for (const int x : {2, 3, kLookSide - 4, kLookSide - 3}) {
            corners.push_back(255 + look.mean.at<float>(y * kLookSide + x));
        }
    }
    const float ground = std::min(255.0F, medianOf(corners));
    std::array<std::vector<float>, 2> edge;
    for (const auto& [x, y] : {std::pair{0, 0}, {3, 0}, {0, 3}, {3, 3}}) {
        edge[0].push_back(tint(x, y, 0));
        edge[1].push_back(tint(x, y, 1));
    }
    look.ground = srgbOf(ground, medianOf(edge[0]), medianOf(edge[1]));
    look.ink = look.ground;
    float most = 24; // grey levels; below there is no symbol
    for (int y = 3; y < kLookSide - 3; ++y) {
        for (int x = 3; x < kLookSide - 3; ++x) {
            const float light = 255 + look.mean.at<float>(y * kLookSide + x);
            if (std::abs(light - ground) > most) {
                most = std::abs(light - ground);
                look.ink = srgbOf(light, tint(x / 4, y / 4, 0), tint(x / 4, y / 4, 1));
            }
        }
    }
}

bool isColoured(const colour::Srgb8& one) {
    const auto [low, high] = std::minmax({one.r, one.g, one.b});
    return high - low > 36;
}

bool isWhite(const colour::Srgb8& one) {
    return std::min({one.r, one.g, one.b}) > 244;
}

/// Whether a symbol on `ground` has no colour of its own beside it: that is paper, or the ground
/// of bare cells.
bool isBareGround(const colour::Srgb8& ground, const std::vector<GroupLook>& looks) {
    constexpr int kSame = 12; // levels of a channel
    return isWhite(ground) || std::ranges::any_of(looks, [&](const GroupLook& one) {
               return one.isBare && std::abs(one.ground.r - ground.r) <= kSame &&
                      std::abs(one.ground.g - ground.g) <= kSame &&
                      std::abs(one.ground.b - ground.b) <= kSame;
           });
}

/// The n-th of colours that lie well apart: hues by the golden angle, lightness in three steps.
colour::Srgb8 apart(std::size_t n) {
    const double angle = 2 * std::numbers::pi * 0.381966 * static_cast<double>(n);
    const double light = std::array{45.0, 62.0, 32.0}[n % 3];
    return colour::srgbFromLab({light, 42 * std::cos(angle), 42 * std::sin(angle)});
}

} // namespace

std::vector<GroupLook> groupLooks(const cv::Mat& looks, const Groups& groups) {
    std::vector<GroupLook> result(static_cast<std::size_t>(groups.count));
    for (GroupLook& one : result) {
        one.mean = cv::Mat::zeros(1, looks.cols, CV_32F);
    }
    for (int i = 0; i < looks.rows; ++i) {
        GroupLook& one = result[static_cast<std::size_t>(groups.of[static_cast<std::size_t>(i)])];
        one.mean += looks.row(i);
        ++one.cells;
    }
    for (GroupLook& one : result) {
        one.mean /= std::max(1, one.cells);
        setColours(one);
    }
    return result;
}

chart::Key foundKey(const std::vector<GroupLook>& looks, std::vector<chart::KeyIndex>& rowOf) {
    std::vector<std::size_t> order(looks.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, std::greater<>(),
                             [&](std::size_t g) { return looks[g].cells; });
    rowOf.assign(looks.size(), chart::kBare);
    chart::Key key;
    for (const std::size_t g : order) {
        if (looks[g].isBare || looks[g].cells == 0) {
            continue;
        }
        const GroupLook& look = looks[g];
        chart::KeyRow row;
        const bool hasGround = !isBareGround(look.ground, looks) &&
                               (isColoured(look.ground) || look.ink == look.ground);
        const colour::Srgb8 wanted = hasGround              ? look.ground
                                     : isColoured(look.ink) ? look.ink
                                                            : apart(key.size());
        row.pixel = chart::freePixel(key, wanted);
        row.lab = colour::labFromSrgb(row.pixel);
        row.symbol = chart::letterSymbol(key.size());
        rowOf[g] = static_cast<chart::KeyIndex>(key.size());
        key.push_back(row);
    }
    return key;
}

} // namespace otherskein::trace::detail
