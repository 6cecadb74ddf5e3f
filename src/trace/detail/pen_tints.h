#pragma once

#include "trace/detail/found_rows.h"

namespace otherskein::trace::detail {

/// A highlighter's ink is no colour of the chart: it lies under symbols that stand on paper
/// elsewhere, more often, and on cells that are bare. Such groups of symbols join their own on
/// paper, the others are bare; all of their cells are doubtful, since a chart may say threads by
/// symbol and colour together.
void markPenTints(Groups& groups, std::vector<GroupLook>& looks);

} // namespace otherskein::trace::detail
