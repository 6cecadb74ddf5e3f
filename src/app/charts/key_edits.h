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

/// A row without a thread at the end of the key, of that colour or near it, with a sign that no
/// other row has: a letter where the rows have letters, as those of a traced chart do, so that it
/// can be typed; else a drawn symbol. The key has room for it (asserted).
[[nodiscard]] chart::Chart withNewRow(const chart::Chart& chart,
                                      const colour::Srgb8& colour = {0x80, 0x80, 0x80});

} // namespace otherskein::app
