#pragma once

#include "trace/detail/sheet.h"

#include <vector>

namespace otherskein::trace::detail {

/// What runs from corner to corner along a side of a cell, its middle on the side.
struct SideLook {
    cv::Vec3b colour;
    float width = 0;            ///< px; 0 where nothing does
    cv::Vec3b ground;           ///< of the cells to both sides, where it is one
    bool isBetweenLike = false; ///< they have the same ground
    bool isUntold = false;      ///< a mark or a dark fill may hide what is there
    bool isPart = false;        ///< a mark of one piece lies there that reaches neither corner

    [[nodiscard]] bool isLine() const { return width > 0; }
};

/// The sides of the cells along one way.
struct DrawnSides {
    int lines = 0; ///< columns + 1 where upright
    int along = 0; ///< sides along each
    std::vector<SideLook> sides;

    [[nodiscard]] const SideLook& at(int line, int place) const {
        return sides[static_cast<std::size_t>(line * along + place)];
    }
};

/// Of a drawn sheet; those at its border look as nothing, since half of each is cut off.
[[nodiscard]] DrawnSides drawnSides(const Sheet& drawn, bool isUpright);

} // namespace otherskein::trace::detail
