#pragma once

#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Takes shadows, folds and the fall-off of a lamp out of a sheet: where paper shows in cells it
/// becomes white. Paper is followed from the whitest cells to their neighbours as long as it
/// changes smoothly; a fill ends at its cell's border and so is not taken for a shadow. A sheet
/// that is even already stays as it is. Stains lose their tint too: see even_light_stains.h.
void evenLight(Sheet& sheet);

} // namespace otherskein::trace::detail
