#pragma once

#include "thread/shade_card.h"

namespace otherskein::thread {

/// Reads CGATS text (ISO 28178) through littleCMS's reader, mended first (cgats_text.h).
///
/// Fields: LAB_L, LAB_A, LAB_B (D50), or else RGB_R, RGB_G, RGB_B (0..255, taken as sRGB). The code
/// is SAMPLE_ID (or SampleID), the name is SAMPLE_NAME, or the code where there is none. Of several
/// tables the first is read. Numbers are those of base/number.h, so no hexadecimal.
///
/// Errors: InputError; its row counts the samples from 1, since the reader gives no lines for
/// values.
[[nodiscard]] ShadeCard parseShadeCardCgats(const QByteArray& bytes, const QString& source);

} // namespace otherskein::thread
