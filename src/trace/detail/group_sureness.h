#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

/// Groups of a cell or two that are near to a larger one join it: specks and creases make many.
/// Their members are told in `strays`, since a symbol may indeed stand in one cell only.
[[nodiscard]] std::vector<Group> withoutStrays(std::vector<Group> groups, Pictures& pictures,
                                               const PrintNoise& noise, std::vector<int>& strays,
                                               bool mayMove);

/// How surely each picture is of its group: one that is nearly as like another group, or unlike all
/// the others of its own, is doubtful.
[[nodiscard]] std::vector<float> surenessOf(const std::vector<Group>& groups,
                                            const Pictures& pictures, const PrintNoise& noise);

} // namespace otherskein::trace::detail
