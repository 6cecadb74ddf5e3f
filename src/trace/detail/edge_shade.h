#pragma once

#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Takes the tint off whole columns or rows along a sheet's sides that repeat a part of another
/// page and are printed on grey (or another even tint) for that. It is no colour of the chart: it
/// lies under symbols of every kind and under nothing at all, fills the columns from end to end,
/// and ends with them. Where little is printed on it, no other cell may have a tint.
void liftEdgeShade(Sheet& sheet);

} // namespace otherskein::trace::detail
