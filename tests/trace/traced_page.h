#pragma once

#include "drawn_page.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

/// The largest grid of a page, traced whole.
inline otherskein::trace::Tracing tracedWhole(const otherskein::trace::Page& page) {
    using namespace otherskein;
    const auto grids = trace::gridsOn(page);
    REQUIRE_FALSE(grids.empty());
    const std::vector<trace::Piece> pieces{{0, grids[0], {}}};
    auto tracing = trace::traced(std::span(&page, 1), pieces);
    REQUIRE(tracing);
    return *tracing;
}

/// The grid as it was drawn, wherever the finder would put it.
inline otherskein::trace::FoundGrid drawnGrid(const DrawnPage& drawn) {
    otherskein::trace::FoundGrid grid;
    grid.columns = drawn.columns;
    grid.rows = drawn.rows;
    for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}}) {
        grid.outline << QPointF(drawn.left + drawn.pitch * drawn.columns * x,
                                drawn.top + drawn.pitch * drawn.rows * y);
    }
    return grid;
}
