#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// Writes an edit into the tables; the caller holds the transaction. Errors: InputError, also where
/// a thing that is to change or go is not there.
void write(const Connection& connection, const Edit& edit);

/// Refuses when the statement has not changed just one row. Errors: InputError.
void expectOne(const Statement& statement, const char* thing);

} // namespace otherskein::workbox::detail
