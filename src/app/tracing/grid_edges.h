#pragma once

#include "trace/tracing.h"

namespace otherskein::app {

enum class GridSide { Left, Right, Top, Bottom };

/// The grid with `by` lines more on that side, less where it is negative, in the perspective that
/// it has; as it is where a chart cannot have that size.
[[nodiscard]] trace::FoundGrid withEdgeMoved(const trace::FoundGrid& grid, GridSide side, int by);

} // namespace otherskein::app
