#pragma once

#include <QString>

namespace otherskein::base {

/// Text that, compared letter by letter, sorts as people count: MS-21 before MS-100, in either
/// case. Runs of digits are led by their length.
[[nodiscard]] QString naturalKey(const QString& text);

} // namespace otherskein::base
