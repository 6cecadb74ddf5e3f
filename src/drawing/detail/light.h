#pragma once

#include <QRgb>

#include <array>
#include <cstdint>

namespace otherskein::drawing::detail {

// Linear light of 8-bit sRGB (IEC 61966-2-1), in tables: pictures are averaged as light adds.

/// Linear light of the three channels, 0..1.
struct Light {
    float r = 0;
    float g = 0;
    float b = 0;
};

[[nodiscard]] constexpr Light operator*(float share, const Light& light) {
    return {share * light.r, share * light.g, share * light.b};
}
[[nodiscard]] constexpr Light operator+(const Light& one, const Light& other) {
    return {one.r + other.r, one.g + other.g, one.b + other.b};
}

class LightTables {
  public:
    /// 14 bits are enough that every 8-bit value comes back as it was: the narrowest step of the
    /// curve, 1 / (255 · 12.92), is five of them wide.
    static constexpr int kSteps = 1 << 14;

    LightTables();
    [[nodiscard]] float linear(int srgb) const { return m_linear[static_cast<std::size_t>(srgb)]; }
    [[nodiscard]] std::uint32_t linear16(int srgb) const {
        return m_linear16[static_cast<std::size_t>(srgb)];
    }
    /// Of linear light in 1 / kSteps.
    [[nodiscard]] std::uint8_t srgbOfStep(std::uint32_t step) const { return m_srgb[step]; }
    /// Of 16-bit linear light.
    [[nodiscard]] std::uint8_t srgbOf16(std::uint32_t linear16) const {
        return m_srgb[linear16 >> 2];
    }
    /// Clips to 0..1.
    [[nodiscard]] std::uint8_t srgb(float linear) const {
        const int step = static_cast<int>(linear * kSteps);
        return m_srgb[static_cast<std::size_t>(step < 0 ? 0 : step >= kSteps ? kSteps - 1 : step)];
    }
    [[nodiscard]] Light light(QRgb colour) const {
        return {linear(qRed(colour)), linear(qGreen(colour)), linear(qBlue(colour))};
    }
    [[nodiscard]] QRgb rgb(const Light& light) const {
        return qRgb(srgb(light.r), srgb(light.g), srgb(light.b));
    }

  private:
    std::array<float, 256> m_linear{};
    std::array<std::uint16_t, 256> m_linear16{};
    std::array<std::uint8_t, kSteps> m_srgb{};
};

[[nodiscard]] const LightTables& lightTables();

} // namespace otherskein::drawing::detail
