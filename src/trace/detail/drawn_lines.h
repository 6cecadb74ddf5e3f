#pragma once

#include "trace/detail/backstitch.h"

namespace otherskein::trace::detail {

/// The lines `found` on a page's picture, with those along sides of cells told by the same grid
/// drawn exactly: thin ones and such as lie along whole rows come in, marks of symbols go. Sloped
/// lines stay. Both sheets show the same cells; `over` and `mask` are as for `sheet`.
[[nodiscard]] Backstitch withDrawnLines(const Sheet& sheet, const Sheet& drawn, Backstitch found);

} // namespace otherskein::trace::detail
