#pragma once

#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// What brings `card` up to date from `from` (checked already), as Document::mergeCard says.
///
/// Only columns that the file has are taken: a file without `stash` leaves the stash alone. A
/// source without columns (not from a CSV file) gives name and colour, and of the other fields
/// those that some thread of it states. Unknown columns are matched by name; new ones go to the
/// end. `firstNewId` and the ids that follow go to the codes that the card lacks, of which there
/// are `newCodes`.
[[nodiscard]] Edit mergeEdit(const StoredCard& card, const thread::ShadeCard& from,
                             ThreadId firstNewId);
[[nodiscard]] std::size_t newCodes(const StoredCard& card, const thread::ShadeCard& from);

} // namespace otherskein::workbox::detail
