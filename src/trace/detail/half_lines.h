#pragma once

#include <array>
#include <set>

namespace otherskein::trace::detail {

/// A line in half cells, its ends in order.
using HalfLine = std::array<int, 4>;

/// In cells.
[[nodiscard]] double lengthOf(const HalfLine& line);

/// Whether most of `below` lies under `above`, as the pale rim of a line does.
[[nodiscard]] bool liesUnder(const std::set<HalfLine>& below, const std::set<HalfLine>& above);

/// Whether most lines reach over half a cell at most and touch no other: quarters of cells, and
/// ticks along an edge. Backstitch goes on.
[[nodiscard]] bool areMarks(const std::set<HalfLine>& lines);

} // namespace otherskein::trace::detail
