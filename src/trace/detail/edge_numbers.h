#pragma once

#include "trace/tracing.h"

namespace otherskein::trace::detail {

/// Sets the grid's first column and row from numbers along its edges: those that agree on one,
/// be each printed at its cell or, as every tenth often is, at the line behind it. At least two
/// must agree.
void readEdgeNumbers(const std::vector<Word>& words, FoundGrid& grid);

} // namespace otherskein::trace::detail
