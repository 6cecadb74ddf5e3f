#include "trace/detail/pen_tints.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr int kRim = 2;           // places of a look, where lines reach in
constexpr int kSameTint = 40;     // levels of a channel: ink lies thicker here than there
constexpr int kLeastTint = 18;    // levels between a ground's channels, beyond paper's own
constexpr int kDarkest = 120;     // of a ground's lightest channel: a pen's ink is bright
constexpr double kAlike = 0.85;   // correlation of two shapes
constexpr float kLeastInk = 0.1F; // of the ground's light: a symbol
constexpr int kFewestShapes = 2;  // that stand on the tint and on paper
constexpr double kMost = 0.6;     // of as many cells as on paper, that a shape has on the tint
constexpr float kUnsure = 0.3F;

constexpr int kSide = kLookSide - 2 * kRim;
using Shape = std::array<float, static_cast<std::size_t>(kSide) * kSide>;

/// The ink of a look, as a share of its ground's light.
struct Ink {
    Shape shape{};
    float most = 0;
};

Ink inkOf(const GroupLook& look) {
    const cv::Vec3f ground(look.ground.b, look.ground.g, look.ground.r);
    const float light = std::max(1.0F, lightOf(ground));
    Ink ink;
    for (int y = 0; y < kSide; ++y) {
        for (int x = 0; x < kSide; ++x) {
            const float here = 255 + look.mean.at<float>((y + kRim) * kLookSide + x + kRim);
            const float share = (light - here) / light;
            ink.shape[static_cast<std::size_t>(y * kSide + x)] = share;
            ink.most = std::max(ink.most, std::abs(share));
        }
    }
    return ink;
}

/// Correlation of two shapes, one moved by so many places.
double correlation(const Shape& one, const Shape& other, int right, int down) {
    double a = 0;
    double b = 0;
    double aa = 0;
    double bb = 0;
    double ab = 0;
    int n = 0;
    for (int y = std::max(0, -down); y < std::min(kSide, kSide - down); ++y) {
        for (int x = std::max(0, -right); x < std::min(kSide, kSide - right); ++x) {
            const double p = one[static_cast<std::size_t>(y * kSide + x)];
            const double q = other[static_cast<std::size_t>((y + down) * kSide + x + right)];
            a += p;
            b += q;
            aa += p * p;
            bb += q * q;
            ab += p * q;
            ++n;
        }
    }
    const double spread = (aa - a * a / n) * (bb - b * b / n);
    return spread <= 0 ? 0 : (ab - a * b / n) / std::sqrt(spread);
}

double alike(const Shape& one, const Shape& other) {
    double most = 0;
    for (int down = -1; down <= 1; ++down) {
        for (int right = -1; right <= 1; ++right) {
            most = std::max(most, correlation(one, other, right, down));
        }
    }
    return most;
}

int tintOf(const colour::Srgb8& one) {
    const auto [low, high] = std::minmax({one.r, one.g, one.b});
    return high - low;
}

bool isNear(const colour::Srgb8& one, const colour::Srgb8& other, int most) {
    return std::abs(one.r - other.r) <= most && std::abs(one.g - other.g) <= most &&
           std::abs(one.b - other.b) <= most;
}

} // namespace

void markPenTints(Groups& groups, std::vector<GroupLook>& looks) {
    const auto paper = std::ranges::max_element(
        looks, {}, [](const GroupLook& one) { return one.isBare ? one.cells : -1; });
    if (paper == looks.end() || !paper->isBare) {
        return;
    }
    const colour::Srgb8 white = paper->ground;
    const auto isTinted = [&](const GroupLook& one) {
        return tintOf(one.ground) > tintOf(white) + kLeastTint &&
               std::max({one.ground.r, one.ground.g, one.ground.b}) > kDarkest;
    };
    std::vector<Ink> inks;
    std::ranges::transform(looks, std::back_inserter(inks), inkOf);
    // Of each group with a symbol on a tint, the same symbol on paper, if it has more cells there.
    std::map<std::size_t, std::size_t> onPaper;
    for (std::size_t g = 0; g < looks.size(); ++g) {
        if (looks[g].isBare || inks[g].most < kLeastInk || !isTinted(looks[g])) {
            continue;
        }
        double best = kAlike;
        for (std::size_t k = 0; k < looks.size(); ++k) {
            const bool isOther = !looks[k].isBare && inks[k].most >= kLeastInk &&
                                 isNear(looks[k].ground, white, kLeastTint) &&
                                 looks[g].cells < kMost * looks[k].cells;
            const double one = isOther ? alike(inks[g].shape, inks[k].shape) : 0;
            if (one > best) {
                best = one;
                onPaper[g] = k;
            }
        }
    }
    std::vector<std::size_t> pens; // tints that lie under different symbols
    for (const auto& [g, own] : onPaper) {
        std::vector<std::size_t> shapes;
        for (const auto& [other, its] : onPaper) {
            if (isNear(looks[g].ground, looks[other].ground, kSameTint) &&
                std::ranges::find(shapes, its) == shapes.end()) {
                shapes.push_back(its);
            }
        }
        if (shapes.size() >= kFewestShapes) {
            pens.push_back(g);
        }
    }
    const auto isPen = [&](std::size_t g) {
        return isTinted(looks[g]) && std::ranges::any_of(pens, [&](std::size_t pen) {
                   return isNear(looks[g].ground, looks[pen].ground, kSameTint);
               });
    };
    std::vector<int> into(looks.size(), -1);
    for (std::size_t g = 0; g < looks.size() && !pens.empty(); ++g) {
        if (looks[g].isBare || !isPen(g)) {
            continue;
        }
        const auto own = onPaper.find(g);
        if (own != onPaper.end()) {
            into[g] = static_cast<int>(own->second);
        } else if (inks[g].most < kLeastInk) {
            looks[g].isBare = true;
            into[g] = static_cast<int>(g);
        }
    }
    for (std::size_t i = 0; i < groups.of.size(); ++i) {
        const auto g = static_cast<std::size_t>(groups.of[i]);
        if (into[g] >= 0) {
            groups.of[i] = into[g];
            groups.confidence[i] = std::min(groups.confidence[i], kUnsure);
            --looks[g].cells;
            ++looks[static_cast<std::size_t>(into[g])].cells;
        }
    }
}

} // namespace otherskein::trace::detail
