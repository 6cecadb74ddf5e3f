#include "drawing/detail/relief.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace otherskein::drawing::detail {

namespace {

// The light comes from the upper left, fairly steep. Its share along the cloth and down on it.
constexpr float kLightAlong = 0.56F;
constexpr float kLightDown = 0.83F;

/// What differs from one cross to the next, as hands do.
struct Hand {
    float topOffset;    ///< across the leg, in cells
    float bottomOffset; ///< the same
    float topLean;      ///< offset that grows along the leg
    float bottomLean;
    float twist; ///< where the turns of the plies begin, in turns
    float light;
};
constexpr std::array<Hand, 4> kHands{Hand{0.000F, 0.006F, 0.010F, -0.008F, 0.10F, 1.000F},
                                     Hand{0.010F, -0.008F, -0.012F, 0.006F, 0.45F, 1.006F},
                                     Hand{-0.008F, 0.010F, 0.004F, 0.012F, 0.72F, 0.994F},
                                     Hand{0.004F, -0.004F, -0.006F, -0.010F, 0.28F, 1.000F}};

/// A point in a leg's own measures.
struct OnLeg {
    float along;  ///< -1..1 from corner to corner
    float across; ///< in cells, to the side that the light does not come from
    float taper;  ///< width here as a share of the width in the middle
    float needed; ///< half width, in cells, from which on the leg covers the point
};

OnLeg onLeg(float along, float across, float offset, float lean) {
    OnLeg at{};
    at.along = along;
    at.across = across + offset + lean * along;
    // Towards the hole that it dives into a leg is drawn together.
    constexpr float kDrawnTogether = 0.27F; // from this distance to the corner on, in cells
    const float toEnd = std::max(1 - std::abs(along), 0.0F) / std::numbers::sqrt2_v<float>;
    const float far = std::min(1.0F, (toEnd + 0.005F) / kDrawnTogether);
    at.taper = far * (2 - far);
    at.needed = std::abs(at.across) / at.taper;
    return at;
}

struct Point {
    OnLeg top;
    OnLeg bottom;
    float needed = 0;
    float toCorner = 0; ///< distance to the nearest hole, in cells
    float toEdge = 0;   ///< distance to the nearest side of the cell

    Point(float x, float y, const Hand& hand)
        : top(onLeg(x - y, (x + y - 1) / std::numbers::sqrt2_v<float>, hand.topOffset,
                    hand.topLean)),
          bottom(onLeg(x + y - 1, (y - x) / std::numbers::sqrt2_v<float>, hand.bottomOffset,
                       hand.bottomLean)),
          needed(std::min(top.needed, bottom.needed)),
          toCorner(std::sqrt(std::min(x, 1 - x) * std::min(x, 1 - x) +
                             std::min(y, 1 - y) * std::min(y, 1 - y))),
          toEdge(std::min({x, 1 - x, y, 1 - y})) {}
};

struct Lit {
    float shade;
    float sheen;
};

/// exp(-x) for x of 0 and more, within 0.04: a third of the time.
float fading(float x) {
    float root = 1 + x / 8;
    root *= root;
    root *= root;
    return 1 / (root * root);
}

/// How many strands a leg of this half width (in cells) shows. Only the coverage is known here, so
/// it is a guess, right for one to three strands on the usual counts; wider legs show three.
int strandsOf(float half) {
    return half < 0.17F ? 1 : half < 0.30F ? 2 : 3;
}

/// Strands side by side, each round and twisted. `sideLight` and `endLight` are the light's parts
/// across and along the leg.
Lit lit(const OnLeg& at, float half, int strands, float twist, float sideLight, float endLight) {
    const float v = std::clamp(at.across / (half * at.taper), -1.0F, 1.0F);
    const float place = (v + 1) / 2 * static_cast<float>(strands);
    const auto strand = static_cast<float>(std::min(static_cast<int>(place), strands - 1));
    const float w = 2 * (place - strand) - 1; // across one strand
    const float nearEnd = at.along * std::abs(at.along);
    const float nx = std::clamp(0.62F * w + 0.22F * v, -0.88F, 0.88F);
    const float nt = 0.5F * nearEnd;
    const float nz = std::sqrt(std::max(0.04F, 1 - nx * nx - nt * nt));
    float shade = std::max(0.0F, nx * sideLight + nt * endLight + nz * kLightDown);
    // Plies wind about each other: a fine slanting groove between one and the next.
    const float turn = 8 + 3.2F * at.along + 0.34F * w + twist + 0.43F * strand; // above 0
    const float ridge = std::abs(2 * (turn - static_cast<float>(static_cast<int>(turn))) - 1);
    const float groove = ridge * ridge * (3 - 2 * ridge);
    shade *= 1 - 0.26F * groove * groove;
    const float gloss = std::max(0.0F, shade - 0.74F) * 3.4F;
    return {0.16F + 0.84F * shade, std::min(1.0F, gloss * gloss)};
}

struct Sample {
    float cover;
    float shade;
    float sheen;
    float shadow;
};

/// `half` is the legs' half width, `soft` the width of an edge, in cells.
Sample sampleAt(const Point& point, const Hand& hand, float half, float soft) {
    // Wide legs lie in each other's way; light on them falls as on legs of at most this width.
    const float shown = std::min(half, 0.31F);
    const int strands = strandsOf(shown);
    Sample sample{};
    sample.cover = std::clamp((half - point.needed) / soft + 0.5F, 0.0F, 1.0F);
    const float beside = std::max(0.0F, point.needed - half);
    sample.shadow = 1 - 0.3F * fading(beside / 0.06F);
    if (sample.cover <= 0) {
        return sample;
    }
    const bool isTop = point.top.needed <= shown || point.top.needed <= point.bottom.needed;
    Lit light{};
    if (isTop) {
        light = lit(point.top, shown, strands, hand.twist, -kLightAlong, 0);
    } else {
        light = lit(point.bottom, shown, strands, hand.twist + 0.37F, 0, -kLightAlong);
        // The top leg's shadow lies on the side that the light does not come from.
        const float under = std::max(0.0F, point.top.needed - shown);
        const float depth = point.top.across > 0 ? 0.52F : 0.26F;
        const float dim = 1 - depth * fading(under / 0.055F);
        light.shade *= dim;
        light.sheen *= dim;
    }
    const float hole = 1 - 0.8F * fading(point.toCorner * point.toCorner / (0.11F * 0.11F));
    // Neighbours meet in a valley.
    const float valley = 1 - 0.34F * fading(point.toEdge / 0.035F);
    sample.shade = light.shade * hole * valley;
    sample.sheen = light.sheen * hole * valley;
    return sample;
}

/// Fine samples a pixel, each way: many for small cells, whose light would flicker otherwise.
int finenessOf(int side) {
    return std::clamp((56 + side - 1) / side, 1, 8);
}

/// What the points of a cell need of a half width to be covered, in order: one list a hand.
const std::vector<float>& neededOf(std::size_t hand) {
    static const auto all = [] {
        constexpr int kSide = 64;
        std::array<std::vector<float>, kHands.size()> lists;
        for (std::size_t i = 0; i < lists.size(); ++i) {
            for (int y = 0; y < kSide; ++y) {
                for (int x = 0; x < kSide; ++x) {
                    lists[i].push_back(Point((static_cast<float>(x) + 0.5F) / kSide,
                                             (static_cast<float>(y) + 0.5F) / kSide, kHands[i])
                                           .needed);
                }
            }
            std::ranges::sort(lists[i]);
        }
        return lists;
    }();
    return all[hand];
}

/// The half width at which the legs cover `coverage` of the cell: the rank of what points need.
float halfWidthFor(double coverage, std::size_t hand) {
    const std::vector<float>& needed = neededOf(hand);
    if (coverage >= 1) { // the edges, too, must be covered
        return needed.back() + 1;
    }
    return needed[static_cast<std::size_t>(coverage * static_cast<double>(needed.size()))];
}

/// So that the mean of the light on all that is covered is `mean`.
void scaleTo(float mean, CrossRelief& relief) {
    double covered = 0;
    double light = 0;
    for (std::size_t i = 0; i < relief.size(); ++i) {
        covered += static_cast<double>(relief.cover[i]);
        light += static_cast<double>(relief.cover[i] * relief.shade[i]);
    }
    const float gain = light > 0 ? mean * static_cast<float>(covered / light) : 1;
    relief.brightest = 0;
    for (float& shade : relief.shade) {
        shade *= gain;
        relief.brightest = std::max(relief.brightest, shade);
    }
}

void normalise(CrossRelief& relief, float mean) {
    scaleTo(1, relief);
    // Bright places bend over softly: what light threads have no room for, and matt cotton no use.
    constexpr float kRoom = 0.22F;
    for (float& shade : relief.shade) {
        shade = shade > 1 ? 1 + kRoom * (1 - std::exp((1 - shade) / kRoom)) : shade;
    }
    scaleTo(mean, relief);
    // Shadow moves light about between the legs; it takes none from the cloth as a whole.
    double open = 0;
    double seen = 0;
    for (std::size_t i = 0; i < relief.size(); ++i) {
        open += static_cast<double>(1 - relief.cover[i]);
        seen += static_cast<double>((1 - relief.cover[i]) * relief.shadow[i]);
    }
    const float gain = seen > 0 ? static_cast<float>(open / seen) : 1;
    for (float& shadow : relief.shadow) {
        shadow *= gain;
    }
}

} // namespace

CrossRelief crossRelief(int width, int height, double coverage, int variant) {
    assert(width > 0 && height > 0);
    CrossRelief relief;
    relief.width = width;
    relief.height = height;
    const auto size = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    for (auto* plane : {&relief.cover, &relief.shade, &relief.sheen, &relief.shadow}) {
        plane->resize(size);
    }
    const auto number = static_cast<std::size_t>(variant) % kHands.size();
    const Hand& hand = kHands[number];
    const float half = halfWidthFor(std::clamp(coverage, 0.0, 1.0), number);
    const int fine = finenessOf(std::min(width, height));
    const float stepX = 1.0F / static_cast<float>(width * fine);
    const float stepY = 1.0F / static_cast<float>(height * fine);
    const float soft = std::max(stepX, stepY);
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            Sample sum{};
            for (int j = 0; j < fine; ++j) {
                for (int i = 0; i < fine; ++i) {
                    const Point point((static_cast<float>(x * fine + i) + 0.5F) * stepX,
                                      (static_cast<float>(y * fine + j) + 0.5F) * stepY, hand);
                    const Sample sample = sampleAt(point, hand, half, soft);
                    sum.cover += sample.cover;
                    sum.shade += sample.cover * sample.shade;
                    sum.sheen += sample.cover * sample.sheen;
                    sum.shadow += sample.shadow;
                }
            }
            const auto at = static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                            static_cast<std::size_t>(x);
            const auto samples = static_cast<float>(fine * fine);
            relief.cover[at] = sum.cover / samples;
            relief.shade[at] = sum.cover > 0 ? sum.shade / sum.cover : 1;
            relief.sheen[at] = sum.cover > 0 ? sum.sheen / sum.cover : 0;
            relief.shadow[at] = sum.shadow / samples;
        }
    }
    normalise(relief, hand.light);
    return relief;
}

} // namespace otherskein::drawing::detail
