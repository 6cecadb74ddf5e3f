#pragma once

#include "workbox/detail/sql.h"

#include <vector>

namespace otherskein::workbox::detail {

/// As Store::problems.
[[nodiscard]] std::vector<QString> findProblems(const Connection& connection);

} // namespace otherskein::workbox::detail
