#pragma once

#include "colour/srgb.h"

#include <QByteArray>

#include <cstdint>
#include <span>
#include <vector>

namespace otherskein::colour {

/// An RGB value in the space of some profile, 16 bits a channel.
struct ProfileRgb {
    std::uint16_t r = 0;
    std::uint16_t g = 0;
    std::uint16_t b = 0;

    bool operator==(const ProfileRgb&) const = default;
};

/// Colours of a picture with an embedded ICC profile as sRGB: littleCMS, relative colorimetric, in
/// floating point without optimisation, then rounded; what sRGB cannot show is clipped by channel.
/// Shapes: out[i] belongs to colours[i].
/// Errors: InputError naming `source`: no ICC profile, one that is cut off or damaged, one that is
/// not of a device or for neither RGB nor grey, a grey one for pixels that are not.
[[nodiscard]] std::vector<Srgb8> srgbThrough(const QByteArray& iccProfile,
                                             std::span<const ProfileRgb> colours,
                                             const QString& source);

} // namespace otherskein::colour
