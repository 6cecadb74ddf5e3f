#pragma once

#include "trace/detail/found_rows.h"
#include "trace/detail/groups.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Marks as bare, and doubtful, the groups that are nothing but what a line of backstitch left: a
/// bar all along one side, in cells that lie at lines (`masked`).
void markLineRests(const std::vector<char>& masked, Groups& groups,
                   std::vector<GroupLook>& groupLooks);

/// What is printed has edges. Makes the groups doubtful whose marks have none on a page where
/// others' do: stains and shade.
void doubtSoftMarks(Groups& groups, std::span<const GroupLook> groupLooks);

} // namespace otherskein::trace::detail
