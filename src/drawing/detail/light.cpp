#include "drawing/detail/light.h"

#include <cmath>

namespace otherskein::drawing::detail {

namespace {

double decoded(double srgb) {
    return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4);
}

double encoded(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

} // namespace

LightTables::LightTables() {
    for (std::size_t i = 0; i < m_linear.size(); ++i) {
        const double linear = decoded(static_cast<double>(i) / 255);
        m_linear[i] = static_cast<float>(linear);
        m_linear16[i] = static_cast<std::uint16_t>(std::lround(65535 * linear));
    }
    for (std::size_t i = 0; i < m_srgb.size(); ++i) {
        const double middle = (static_cast<double>(i) + 0.5) / kSteps;
        m_srgb[i] = static_cast<std::uint8_t>(std::lround(255 * encoded(middle)));
    }
}

const LightTables& lightTables() {
    static const LightTables tables;
    return tables;
}

} // namespace otherskein::drawing::detail
