#include "colour/contrast.h"

#include "colour/conversion.h"

#include <algorithm>
#include <cmath>

namespace otherskein::colour {

namespace {

double linear(std::uint8_t component) {
    const double c = component / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double ratio(double one, double other) {
    constexpr double kFlare = 0.05;
    return (std::max(one, other) + kFlare) / (std::min(one, other) + kFlare);
}

} // namespace

double relativeLuminance(const Srgb8& srgb) {
    return 0.2126 * linear(srgb.r) + 0.7152 * linear(srgb.g) + 0.0722 * linear(srgb.b);
}

double contrastRatio(const Srgb8& one, const Srgb8& other) {
    return ratio(relativeLuminance(one), relativeLuminance(other));
}

double contrastRatio(const Lab& one, const Lab& other) {
    return ratio(std::max(0.0, xyzFromLab(one).Y), std::max(0.0, xyzFromLab(other).Y));
}

} // namespace otherskein::colour
