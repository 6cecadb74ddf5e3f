#pragma once

#include "workbox/detail/sql.h"

#include <memory>

namespace otherskein::workbox::detail {

/// Opens a workbox, or makes it: looks at the file first without writing, then brings it to the
/// schema of this program. Errors: as Store's constructor.
[[nodiscard]] std::unique_ptr<Connection> openWorkbox(const QString& path);

} // namespace otherskein::workbox::detail
