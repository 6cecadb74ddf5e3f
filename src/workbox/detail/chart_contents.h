#pragma once

#include "workbox/store.h"

#include <span>

namespace otherskein::workbox::detail {

/// The parts of `fits` and `carryOut` (detail/contents.h) that are about charts and colourways.
/// A chart that is patched has been read (asserted).
[[nodiscard]] bool chartsFit(const Contents& contents, const Edit& edit);
void carryOutCharts(Contents& contents, const Edit& edit);

[[nodiscard]] StoredChart* find(std::vector<StoredChart>& charts, ChartId id);
[[nodiscard]] const StoredChart* find(const std::vector<StoredChart>& charts, ChartId id);
[[nodiscard]] const StoredColourway* find(const std::vector<StoredColourway>& colourways,
                                          ColourwayId id);

/// Adds to the patch that cells of a chart with a page (asserted) are `seen`; those outside the
/// grid, or so already, are left out.
void mark(ChartPatch& patch, const StoredChart& stored, std::span<const chart::Cell> cells,
          bool seen);

[[nodiscard]] chart::Key withoutStitches(chart::Key key);

/// The cells of `area`, row by row.
[[nodiscard]] std::vector<chart::KeyIndex> cellsOf(const chart::Grid& grid,
                                                   const chart::Area& area);

} // namespace otherskein::workbox::detail
