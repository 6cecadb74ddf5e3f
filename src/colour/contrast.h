#pragma once

#include "colour/lab.h"
#include "colour/srgb.h"

namespace otherskein::colour {

/// WCAG 2.x relative luminance, 0..1, of a colour that a screen shows.
/// Uses the sRGB curve of IEC 61966-2-1 (break at 0.04045), as WCAG 2.2 does since its 2021
/// correction; the earlier 0.03928 gives the same value for every 8-bit colour.
[[nodiscard]] double relativeLuminance(const Srgb8& srgb);

/// WCAG 2.x contrast ratio, 1..21, whichever of the two is lighter.
[[nodiscard]] double contrastRatio(const Srgb8& one, const Srgb8& other);

/// The same ratio from measured colours. Y of the D50 connection space stands for luminance, so
/// colours outside sRGB need no clipping; for greys it agrees with the sRGB form.
[[nodiscard]] double contrastRatio(const Lab& one, const Lab& other);

} // namespace otherskein::colour
