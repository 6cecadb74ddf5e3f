#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// How charts and colourways stand in the tables. Cells: detail/chart_bands.h. Key and motif plan:
/// JSON (detail/chart_text.h). Lines: packed, five numbers a line. A key's stitches are counted
/// when it is read. Readers throw InputError (damaged) for what no program of ours wrote.

/// Facts only: no cells, no motif plan.
[[nodiscard]] std::vector<StoredChart> readCharts(const Connection& connection);
/// Whole. Errors: InputError (gone, damaged, beyond a limit).
[[nodiscard]] StoredChart readChart(const Connection& connection, ChartId id);
[[nodiscard]] std::vector<StoredColourway> readColourways(const Connection& connection);

/// The part of an edit that is about charts and colourways; the caller holds the transaction.
void writeCharts(const Connection& connection, const Edit& edit);

} // namespace otherskein::workbox::detail
