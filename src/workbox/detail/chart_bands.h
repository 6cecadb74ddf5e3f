#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// The cells of charts in the file: bands of kBandRows rows, each packed (detail/packing.h), so
/// that a stroke reads and writes only the bands that it touches. The caller holds the transaction.
inline constexpr int kBandRows = 64;

void addBands(const Connection& connection, ChartId id, const chart::Grid& grid);

/// Puts the patch's cells after in place of those before, which must be there.
/// Errors: InputError (other cells there, damaged).
void patchBands(const Connection& connection, const ChartPatch& patch);

/// Fills the grid, which has its size. Nothing is checked against a key. Errors: InputError
/// (damaged).
void readBands(const Connection& connection, ChartId id, const QString& name, chart::Grid& grid);

} // namespace otherskein::workbox::detail
