#pragma once

#include "colour/lab.h"

#include <QString>

namespace otherskein::colour {

/// How `other` differs from `wanted` in trade words, as a sentence start: "A little lighter and
/// redder", "Clearly duller". Names the parts of the difference (lightness, colourfulness, hue)
/// that matter most, at most two, after how large each one is. Where a shade gets darker and more
/// colourful at once it is "deeper", the other way "paler". "No visible difference" under ΔE00 1,
/// which most eyes cannot see between two threads lying side by side (common practice, no source).
[[nodiscard]] QString differenceInWords(const Lab& wanted, const Lab& other);

} // namespace otherskein::colour
