#pragma once

#include "chart/chart.h"
#include "trace/detail/groups.h"

namespace otherskein::trace::detail {

/// What a group of cells looks like, on the whole.
struct GroupLook {
    cv::Mat mean; ///< a look
    int cells = 0;
    bool isBare = false;   ///< as markBare says
    bool isSquare = false; ///< drawn as a square with white around: not paper, be it ever so pale
    colour::Srgb8 ground;  ///< colour of the cell beside the symbol
    colour::Srgb8 ink;     ///< of the symbol, or the ground where there is none
};

[[nodiscard]] std::vector<GroupLook> groupLooks(const cv::Mat& looks, const Groups& groups);

/// A key with a row for each group that is not bare, most stitches first; `rowOf` becomes each
/// group's row, or kBare. Pixels are the cells' colours where they have one, else colours well
/// apart, since a chart's picture tells rows apart by colour only.
[[nodiscard]] chart::Key foundKey(const std::vector<GroupLook>& looks,
                                  std::vector<chart::KeyIndex>& rowOf);

} // namespace otherskein::trace::detail
