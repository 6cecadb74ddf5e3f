#pragma once

#include <QString>

#include <cstdint>
#include <optional>

namespace otherskein::colour {

/// 8-bit sRGB (IEC 61966-2-1), for entry and display only.
struct Srgb8 {
    std::uint8_t r = 0;
    std::uint8_t g = 0;
    std::uint8_t b = 0;

    bool operator==(const Srgb8&) const = default;
};

/// `#rrggbb`, in either case; nothing else.
[[nodiscard]] std::optional<Srgb8> parseHex(const QString& text);

/// `#rrggbb` in lower case.
[[nodiscard]] QString toHex(const Srgb8& srgb);

} // namespace otherskein::colour
