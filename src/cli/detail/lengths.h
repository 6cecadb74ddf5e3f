#pragma once

#include "cli/detail/command_line.h"
#include "colourway/fabric_fit.h"

namespace otherskein::cli {

/// "7.5cm", "75mm" or "3in" in mm, 0 to 10 m. Errors: InputError naming the option.
[[nodiscard]] double lengthMm(const QString& option, const QString& word);
/// "18x27in" or "45x70cm": width, height and their common unit.
[[nodiscard]] colourway::Extent sizeMm(const QString& option, const QString& word);

/// "9.6 x 4.4 in (24.4 x 11.2 cm)" with a multiplication sign.
[[nodiscard]] QString sizeText(const colourway::Extent& size);

} // namespace otherskein::cli
