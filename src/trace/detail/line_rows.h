#pragma once

#include "chart/chart.h"

#include <span>

namespace otherskein::trace::detail {

/// Gives the lines of a traced chart rows of the key: one for each of their colours. Before, a
/// line's key is an index in `colours`, some of which may be the same but for how they were
/// printed.
void addLineRows(std::span<const colour::Srgb8> colours, chart::Chart& chart);

} // namespace otherskein::trace::detail
