#include "drawing/detail/relief.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace otherskein::drawing::detail {

namespace {

constexpr int kThreads = 2; ///< of warp and of weft in a cell
constexpr float kHalfThread = 0.46F;
constexpr float kPi = std::numbers::pi_v<float>;

/// Height of one thread system over the cloth's middle, in thread pitches; far below where there is
/// none. `across` and `along` are in pitches; threads lie at whole numbers and a half.
float threadHeight(float across, float along, float sign) {
    const float number = std::floor(across);
    const float off = (across - number - 0.5F) / kHalfThread;
    if (std::abs(off) >= 1) {
        return -1;
    }
    // Over one, under the next, and the next thread the other way round.
    const float odd = static_cast<int>(number) % 2 == 0 ? sign : -sign;
    return 0.16F * odd * std::sin(kPi * along) + 0.30F * std::sqrt(1 - off * off);
}

float heightAt(float px, float py) {
    return std::max(threadHeight(px, py, 1), threadHeight(py, px, -1));
}

/// Light from the upper left on plain weave at a point of the cell, 0..1 both ways.
float weave(float x, float y) {
    const float px = x * kThreads;
    const float py = y * kThreads;
    const float height = heightAt(px, py);
    if (height < -0.5F) {
        return 0.34F; // through the hole
    }
    constexpr float kStep = 0.03F;
    const auto slope = [&](float dx, float dy) {
        const float one = heightAt(px + 2 - dx, py + 2 - dy);
        const float other = heightAt(px + 2 + dx, py + 2 + dy);
        return std::clamp((std::max(other, -0.3F) - std::max(one, -0.3F)) / (2 * kStep), -1.1F,
                          1.1F);
    };
    const float sx = slope(kStep, 0);
    const float sy = slope(0, kStep);
    const float steep = 1 / std::sqrt(1 + 0.5F * (sx * sx + sy * sy));
    // Towards the light, and out of the valleys.
    return std::max(0.2F, steep * (0.86F + 0.13F * (sx + sy)) * (0.76F + 0.5F * height));
}

} // namespace

ClothRelief clothRelief(int width, int height) {
    assert(width > 0 && height > 0);
    ClothRelief relief{width, height, {}, 0};
    relief.shade.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const int fine = std::clamp(48 / std::min(width, height), 1, 8);
    double sum = 0;
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            float light = 0;
            for (int j = 0; j < fine; ++j) {
                for (int i = 0; i < fine; ++i) {
                    light += weave((static_cast<float>(x * fine + i) + 0.5F) /
                                       static_cast<float>(width * fine),
                                   (static_cast<float>(y * fine + j) + 0.5F) /
                                       static_cast<float>(height * fine));
                }
            }
            relief.shade.push_back(light);
            sum += static_cast<double>(light);
        }
    }
    const float gain = static_cast<float>(static_cast<double>(relief.shade.size()) / sum);
    for (float& shade : relief.shade) {
        shade *= gain;
        relief.brightest = std::max(relief.brightest, shade);
    }
    return relief;
}

Lighting lightingOf(const Light& colour, float brightest, float loss) {
    // One channel may reach its end before the others without anybody seeing it: half the strongest
    // channel, half the luminance.
    const float luminance = 0.2126F * colour.r + 0.7152F * colour.g + 0.0722F * colour.b;
    const float peak = std::max((std::max({colour.r, colour.g, colour.b}) + luminance) / 2, 1e-6F);
    const float above = std::max(brightest - 1, 1e-6F);
    // gain · brightest + base reaches white at most, with gain + base = 1 - loss in the mean.
    const float room = 1 / peak;
    if (1 + above <= room) {
        return {};
    }
    const float gain = std::min(1.0F, (room - 1 + loss) / above);
    const float darker = std::max(0.0F, 1 + gain * above - room);
    return {gain, 1 - gain - darker};
}

} // namespace otherskein::drawing::detail
