#pragma once

#include "colourway/ground_check.h"
#include "thread/ground.h"

#include <QString>

namespace otherskein::app {

[[nodiscard]] QString verdictText(colourway::Verdict verdict);
/// How the limits were chosen, for help texts.
[[nodiscard]] QString verdictLimitsText();

/// "9.6 × 4.4 in", or "24.4 × 11.2 cm".
[[nodiscard]] QString sizeText(double widthMm, double heightMm, bool inches);
/// "36 over 2".
[[nodiscard]] QString countText(const thread::Ground& ground);
/// A figure with one decimal in the user's language.
[[nodiscard]] QString figure(double value, int decimals = 1);

} // namespace otherskein::app
