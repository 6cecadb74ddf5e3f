#pragma once

#include "trace/detail/sheet.h"

#include <optional>

namespace otherskein::trace::detail {

/// Takes off a sheet what is printed in one pale colour under the chart, a word or an emblem across
/// the page. It is told from pale symbols and fills by its edges: those run through cells anywhere
/// and on into the next cell, each in its own way, while a symbol is the same in all its cells and
/// ends with them. `known` is what another picture of the same chart has. Returns the colour.
std::optional<cv::Vec3b> liftPalePrint(Sheet& sheet,
                                       const std::optional<cv::Vec3b>& known = std::nullopt);

/// Whether a drawn sheet may have any: else a closer look is not worth its time.
[[nodiscard]] bool hasFlatPale(const Sheet& drawn);

} // namespace otherskein::trace::detail
