#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// The pages of traced charts in the file. Confidence: a packed number a cell; what has been seen:
/// sixteen cells a packed number (detail/packing.h), the first in the lowest bit. The caller holds
/// the transaction.

void addPage(const Connection& connection, ChartId id, const TracedPage& page);

/// Marks cells as the patch says; they are as it says they were. Errors: InputError (other marks
/// there, damaged).
void patchSeen(const Connection& connection, const ChartPatch& patch);

/// Null where the chart was not traced. Errors: InputError (damaged).
[[nodiscard]] std::shared_ptr<const TracedPage> readPage(const Connection& connection, ChartId id,
                                                         const chart::Chart& chart);

} // namespace otherskein::workbox::detail
