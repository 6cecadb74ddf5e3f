#pragma once

#include "trace/detail/bare_cells.h"

#include <optional>

namespace otherskein::trace::detail {

/// The group that is the chart's ground where it is not white as the page is: a chart may be
/// printed on a tint of its own, as cloth is. Something without a mark is the ground where
/// - it is as the page is around the chart, or
/// - most marks of the chart stand on it, or
/// - all else has marks, and it is pale, or
/// - nothing has a mark, it is the palest, and the key shows others but not it; or, without a key,
///   most of the chart's rim is of it and all else is much darker.
/// A plain colour among plain colours is a symbol.
[[nodiscard]] std::optional<std::size_t> groundOf(std::span<const LookGrid> grids,
                                                  const Groups& groups,
                                                  const std::vector<GroupLook>& looks,
                                                  const BesideChart& beside);

/// Whether the key shows a pale colour as it shows the others: then it is a symbol, however pale.
[[nodiscard]] bool isOfKey(std::size_t group, std::span<const LookGrid> grids, const Groups& groups,
                           const std::vector<GroupLook>& looks, const BesideChart& beside);

} // namespace otherskein::trace::detail
