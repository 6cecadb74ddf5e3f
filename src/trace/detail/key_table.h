#pragma once

#include "trace/detail/found_rows.h"
#include "trace/tracing.h"

namespace otherskein::trace::detail {

/// Writes code and name into rows of `key` where a table of the pages says them: lines of text
/// beside a picture of the row's symbol or colour.
void proposeKey(std::span<const Page> pages, std::span<const Piece> pieces,
                const std::vector<GroupLook>& looks, const std::vector<chart::KeyIndex>& rowOf,
                chart::Key& key);

} // namespace otherskein::trace::detail
