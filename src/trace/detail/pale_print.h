#pragma once

#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Takes off a sheet what is printed in one pale colour under the chart, a word or an emblem across
/// the page. It is told from pale symbols and fills by its edges: those run through cells anywhere
/// and on into the next cell, each in its own way, while a symbol is the same in all its cells and
/// ends with them.
void liftPalePrint(Sheet& sheet);

} // namespace otherskein::trace::detail
