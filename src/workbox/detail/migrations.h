#pragma once

#include "workbox/detail/sql.h"

namespace otherskein::workbox::detail {

/// Marks a file as a workbox ("OTSK"); SQLite keeps it in the header as `application_id`.
inline constexpr qint64 kApplicationId = 0x4F54534B;

/// The schema of the file; 0 for an empty one.
[[nodiscard]] int schemaVersion(const Connection& connection);

/// Brings an empty file or an older schema to Store::kSchemaVersion, in one transaction. Before an
/// older one is touched, a copy is kept beside it as `NAME.vN.bak`, or `NAME.vN.bak-2` and so on;
/// an earlier copy is never written over. Errors: InputError; then the file is as it was.
void bringForward(const Connection& connection);

} // namespace otherskein::workbox::detail
