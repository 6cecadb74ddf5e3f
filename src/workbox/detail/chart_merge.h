#pragma once

#include "workbox/store.h"

#include <optional>

namespace otherskein::workbox::detail {

/// Two edits that follow each other as one, where both only patch one and the same chart, or only
/// change one and the same colourway; else nothing. An edit that comes to nothing is empty.
/// `contents` are as both have left them: they know the cells between two areas that lie apart.
[[nodiscard]] std::optional<Edit> patchedTwice(const Edit& first, const Edit& second,
                                               const Contents& contents);

} // namespace otherskein::workbox::detail
