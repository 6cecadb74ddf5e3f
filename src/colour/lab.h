#pragma once

// The colour folder: colours as numbers, conversions through littleCMS, differences, contrast and
// mixing. Double precision throughout; 8-bit sRGB only at the edge. No threads, no widgets.

namespace otherskein::colour {

/// CIELAB, D50, 2° observer: the ICC profile connection space. The truth of every thread.
/// Range: L 0..100; a and b are unbounded here, readers limit them.
struct Lab {
    double L = 0;
    double a = 0;
    double b = 0;

    bool operator==(const Lab&) const = default;
};

/// CIE XYZ relative to the D50 white of the profile connection space (Y of white = 1).
struct Xyz {
    double X = 0;
    double Y = 0;
    double Z = 0;

    bool operator==(const Xyz&) const = default;
};

/// C*ab.
[[nodiscard]] double chroma(const Lab& lab);

/// CIELAB hue angle in degrees, 0 <= h < 360; 0 for a neutral.
[[nodiscard]] double hueDegrees(const Lab& lab);

} // namespace otherskein::colour
