#pragma once

#include "trace/detail/sheet.h"

#include <map>
#include <span>

namespace otherskein::trace::detail {

/// A cell that is as a group's cells but for some marks.
struct MarkedCell {
    cv::Mat marks; ///< CV_8U, as large as a cell, 255 there
    cv::Rect inner;
};

/// Whether a cell's marks are none of its own: each runs on into the cells beside it, or comes in
/// from beyond the sheet, as a knot on a line between two cells and a frame's corner do. `cell` is
/// its index, `marked` has it and others, all of them indices of the sheet's cells.
[[nodiscard]] bool areMarksFromBeyond(const Sheet& sheet, int cell,
                                      const std::map<int, MarkedCell>& marked);

} // namespace otherskein::trace::detail
