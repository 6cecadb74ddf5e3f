#pragma once

#include "chart/chart.h"
#include "colourway/substitute.h"

namespace otherskein::app {

// What the user changes in a chart's key, each as the whole chart that comes of it.

/// The row is stitched with that thread: its card, code, name and colour.
[[nodiscard]] chart::Chart withThread(const chart::Chart& chart, chart::KeyIndex row,
                                      const colourway::Wanted& thread);
[[nodiscard]] chart::Chart withSymbol(const chart::Chart& chart, chart::KeyIndex row,
                                      const QString& symbol);
[[nodiscard]] chart::Chart withStrands(const chart::Chart& chart, chart::KeyIndex row, int strands);

/// A grey row without a thread at the end of the key, with a drawn symbol that no other row has.
/// The key has room for it (asserted).
[[nodiscard]] chart::Chart withNewRow(const chart::Chart& chart);

} // namespace otherskein::app
