#pragma once

#include "chart/chart.h"
#include "chart/motifs.h"

#include <optional>

namespace otherskein::workbox::detail {

/// A key (without its stitches, which the cells say) and a motif plan as JSON text. The readers are
/// strict: they give nothing for text that the writers do not make. Limits are not theirs to check.
[[nodiscard]] QString keyText(const chart::Key& key);
[[nodiscard]] std::optional<chart::Key> keyOf(const QString& text);
[[nodiscard]] QString planText(const chart::MotifPlan& plan);
[[nodiscard]] std::optional<chart::MotifPlan> planOf(const QString& text);

} // namespace otherskein::workbox::detail
