#pragma once

#include "colour/lab.h"
#include "colour/srgb.h"

#include <span>

namespace otherskein::colour {

/// CIELAB of an sRGB colour: littleCMS, relative colorimetric, floating point, no optimisation, so
/// sRGB's D65 white becomes L 100, a 0, b 0 (Bradford adaptation as in the ICC sRGB profile).
/// Errors: std::runtime_error when littleCMS cannot build the transform (out of memory).
[[nodiscard]] Lab labFromSrgb(const Srgb8& srgb);

/// Many at once. Shapes: `out[i]` belongs to `srgb[i]`; both have the same length (asserted).
void labFromSrgb(std::span<const Srgb8> srgb, std::span<Lab> out);

/// sRGB components 0..1 that are not yet rounded to 8 bits (a CGATS file may hold such).
[[nodiscard]] Lab labFromSrgb(double red, double green, double blue);

/// The colour to show for `lab`; one that sRGB cannot show is clipped to its nearest edge.
[[nodiscard]] Srgb8 srgbFromLab(const Lab& lab);

/// False where `srgbFromLab` had to clip by more than half of an 8-bit step.
[[nodiscard]] bool isInsideSrgb(const Lab& lab);

/// CIE 15 formulas relative to D50, both ways.
[[nodiscard]] Xyz xyzFromLab(const Lab& lab);
[[nodiscard]] Lab labFromXyz(const Xyz& xyz);

} // namespace otherskein::colour
