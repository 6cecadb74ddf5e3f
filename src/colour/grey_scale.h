#pragma once

#include "colour/lab.h"

#include <QString>

namespace otherskein::colour {

/// A step of the textile trade's grey scale for change in colour: "5" (no difference) down to "1".
/// The nearest step of ISO 105-A02's table of CIELAB differences, by ΔE*ab; half way between two
/// steps counts as the worse one, as ISO 105-A05 draws its borders. The standard's eye looks under
/// D65; here the D50 values of the profile connection space stand in for it.
[[nodiscard]] QString greyScaleStep(double deltaEab);

} // namespace otherskein::colour
