#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

/// What printing did to the cells of these groups. `pictures` and the groups' members are the same
/// rows.
[[nodiscard]] PrintNoise printNoiseOf(const std::vector<Group>& groups, const Pictures& pictures);

} // namespace otherskein::trace::detail
