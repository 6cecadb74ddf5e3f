#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

#include <utility>
#include <vector>

namespace otherskein::workbox::detail {

/// Finds values of the `position` column that put new threads at their places in a card. Positions
/// in the file only order: deletions leave gaps, and what is put back fits into its own gap. Where
/// there is no gap, the threads behind move up as far as needed.
///
/// `additions`: (index in the card after the edit, id), ascending; deletions are done already.
/// Returns: the position of each addition. Errors: InputError.
[[nodiscard]] std::vector<qint64>
makeRoom(const Connection& connection, CardId card,
         const std::vector<std::pair<std::size_t, ThreadId>>& additions);

} // namespace otherskein::workbox::detail
