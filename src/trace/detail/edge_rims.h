#pragma once

#include "trace/detail/edge_profiles.h"
#include "trace/detail/like_cells.h"

namespace otherskein::trace::detail {

/// Takes from the sides' excess what like cells have there as well: a symbol's outline near the
/// side repeats in each of them, a line over the chart does not.
void takeRims(const LikeCells& like, int columns, EdgeLines& upright, EdgeLines& level);

} // namespace otherskein::trace::detail
