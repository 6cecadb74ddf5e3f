#include "drawing/detail/cloth_surface.h"

#include "drawing/detail/weaving.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <numeric>

namespace otherskein::drawing::detail {

namespace {

constexpr float kNone = -1;     ///< height where there is no thread
constexpr float kFloor = -0.3F; ///< height that slopes end at
constexpr float kTwists = 3;    ///< of a fabric thread's plies in a pitch

struct Heights {
    int side = 0;              ///< a power of two: wrapping round is then one operation
    std::vector<float> height; ///< in pitches
    std::vector<float> tone;

    explicit Heights(int texels)
        : side(texels), height(static_cast<std::size_t>(texels * texels), kNone),
          tone(height.size(), 1) {}

    [[nodiscard]] std::size_t at(int x, int y) const {
        return static_cast<std::size_t>((y & (side - 1)) * side + (x & (side - 1)));
    }
};

/// Lays one thread over what is there already: the higher one is seen.
void lay(Heights& heights, const FabricThread& thread, bool isWarp, const Weaving& weaving) {
    const int side = heights.side;
    const float texel = static_cast<float>(weaving.threads) / static_cast<float>(side);
    for (int i = 0; i < side; ++i) {
        const auto along = static_cast<std::size_t>(i);
        const float middle = thread.middle[along];
        const float half = thread.half[along];
        const float crown = weaving.crown * (0.4F + 0.6F * half / 0.46F);
        const int first = static_cast<int>(std::floor((middle - half) / texel));
        const int last = static_cast<int>(std::ceil((middle + half) / texel));
        for (int j = first; j <= last; ++j) {
            const float off = ((static_cast<float>(j) + 0.5F) * texel - middle) / half;
            if (std::abs(off) >= 1) {
                continue;
            }
            const float height = thread.lift[along] + crown * std::sqrt(1 - off * off);
            const std::size_t at = isWarp ? heights.at(j, i) : heights.at(i, j);
            if (height > heights.height[at]) {
                heights.height[at] = height;
                // The plies' slanting grooves, faintly.
                const float turn = kTwists * static_cast<float>(i) * texel + 0.45F * off;
                const float ridge = std::abs(2 * (turn - std::floor(turn)) - 1);
                heights.tone[at] = thread.tone[along] * (1 - 0.07F * ridge * ridge);
            }
        }
    }
}

/// Light on a slope of the cloth, 0..1: towards the light, and out of the valleys.
float lightOn(float height, float slopeX, float slopeY) {
    const float sx = std::clamp(slopeX, -1.1F, 1.1F);
    const float sy = std::clamp(slopeY, -1.1F, 1.1F);
    const float steep = 1 / std::sqrt(1 + 0.5F * (sx * sx + sy * sy));
    return std::max(0.2F, steep * (0.86F + 0.13F * (sx + sy)) * (0.76F + 0.5F * height));
}

std::vector<float> shadesOf(const Weaving& weaving) {
    Heights heights(weaving.texels);
    for (const FabricThread& thread : weaving.warp) {
        lay(heights, thread, true, weaving);
    }
    for (const FabricThread& thread : weaving.weft) {
        lay(heights, thread, false, weaving);
    }
    const float texel = static_cast<float>(weaving.threads) / static_cast<float>(heights.side);
    const int reach = std::max(1, static_cast<int>(std::lround(0.03F / texel)));
    const float run = 2 * static_cast<float>(reach) * texel;
    std::vector<float> shades;
    shades.reserve(heights.height.size());
    for (int y = 0; y < heights.side; ++y) {
        for (int x = 0; x < heights.side; ++x) {
            const std::size_t at = heights.at(x, y);
            const auto height = [&](int dx, int dy) {
                return std::max(kFloor, heights.height[heights.at(x + dx, y + dy)]);
            };
            const bool isHole = heights.height[at] <= kNone;
            shades.push_back(isHole ? weaving.hole
                                    : heights.tone[at] *
                                          lightOn(heights.height[at],
                                                  (height(reach, 0) - height(-reach, 0)) / run,
                                                  (height(0, reach) - height(0, -reach)) / run));
        }
    }
    return shades;
}

/// The needle's holes at the corners of cells: round, and soft at their rims.
void pierce(std::vector<float>& shades, int texels, int side, float radius) {
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            const auto off = [texels](int i) {
                const float place =
                    (static_cast<float>(i % texels) + 0.5F) / static_cast<float>(texels);
                return std::min(place, 1 - place);
            };
            const float square = (off(x) * off(x) + off(y) * off(y)) / (radius * radius);
            shades[static_cast<std::size_t>(y * side + x)] *= 1 - 0.8F / (1 + square * square);
        }
    }
}

float mixed(float one, float other, float share) {
    return one + share * (other - one);
}

/// Where many thick places meet a patch is brighter than elsewhere, and the eye finds that spot
/// again and again: takes most of the difference between cells away, smoothly. A little more than
/// all of it is taken at the middles, which is less than that over a cell.
void level(std::vector<float>& shades, int texels, int side) {
    const int cells = side / texels;
    std::vector<float> mean(static_cast<std::size_t>(cells * cells));
    const auto cellAt = [&](int x, int y) {
        return static_cast<std::size_t>((y + cells) % cells * cells + (x + cells) % cells);
    };
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            mean[cellAt(x / texels, y / texels)] += shades[static_cast<std::size_t>(y * side + x)];
        }
    }
    const float all =
        std::accumulate(mean.begin(), mean.end(), 0.0F) / static_cast<float>(mean.size());
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            const float u = (static_cast<float>(x) + 0.5F) / static_cast<float>(texels) + 0.5F;
            const float v = (static_cast<float>(y) + 0.5F) / static_cast<float>(texels) + 0.5F;
            const int left = static_cast<int>(u) - 1;
            const int top = static_cast<int>(v) - 1;
            const float upper =
                mixed(mean[cellAt(left, top)], mean[cellAt(left + 1, top)], u - std::floor(u));
            const float lower = mixed(mean[cellAt(left, top + 1)], mean[cellAt(left + 1, top + 1)],
                                      u - std::floor(u));
            const float here = mixed(upper, lower, v - std::floor(v));
            shades[static_cast<std::size_t>(y * side + x)] *= all / mixed(all, here, 1.35F);
        }
    }
}

void scaleToOne(std::vector<float>& shades) {
    const double sum = std::accumulate(shades.begin(), shades.end(), 0.0);
    const float gain = static_cast<float>(static_cast<double>(shades.size()) / sum);
    std::ranges::for_each(shades, [gain](float& shade) { shade *= gain; });
}

ClothSurface surfaceOf(const Cloth& cloth) {
    ClothSurface surface;
    surface.repeat = repeatOf(cloth);
    // Fewer where the patch is large: linen is made in a few milliseconds, and soft anyway.
    surface.texels = surface.repeat > 2 ? 64 : 128;
    const Weaving weaving = weavingOf(cloth, surface.side());
    surface.shade = shadesOf(weaving);
    if (weaving.needle > 0) {
        pierce(surface.shade, surface.texels, surface.side(), weaving.needle);
    }
    if (surface.repeat > 2) {
        level(surface.shade, surface.texels, surface.side());
    }
    scaleToOne(surface.shade);
    std::vector<float> picture = surface.shade;
    for (int side = surface.side();; side /= 2) {
        surface.brightest.push_back(*std::ranges::max_element(picture));
        if (side % 2 != 0) {
            return surface;
        }
        std::vector<float> half;
        for (int y = 0; y < side; y += 2) {
            for (int x = 0; x < side; x += 2) {
                const auto at = static_cast<std::size_t>(y * side + x);
                const auto below = at + static_cast<std::size_t>(side);
                half.push_back(
                    (picture[at] + picture[at + 1] + picture[below] + picture[below + 1]) / 4);
            }
        }
        picture = std::move(half);
    }
}

} // namespace

float ClothSurface::brightestAt(int pixels) const {
    std::size_t level = 0;
    int size = texels;
    while (size / 2 >= pixels && level + 1 < brightest.size()) {
        size /= 2;
        ++level;
    }
    return brightest[level];
}

const ClothSurface& clothSurface(const Cloth& cloth) {
    static std::array<std::once_flag, 6> made;
    static std::array<std::unique_ptr<ClothSurface>, 6> surfaces;
    const auto number = 2 * static_cast<std::size_t>(cloth.weave) + (cloth.over == 1 ? 0U : 1U);
    std::call_once(made[number],
                   [&] { surfaces[number] = std::make_unique<ClothSurface>(surfaceOf(cloth)); });
    return *surfaces[number];
}

} // namespace otherskein::drawing::detail
