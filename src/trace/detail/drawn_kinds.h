#pragma once

#include "trace/detail/drawn_cells.h"

#include <functional>
#include <optional>

namespace otherskein::trace::detail {

inline constexpr std::size_t kFewCells = 2; ///< up to which a group may be another under a line
inline constexpr double kMostLine = 0.35;   ///< of a cell, that an unknown line covers
inline constexpr float kUnsureDrawn = 0.3F; ///< confidence where a drawn cell is not clear

/// The shapes that a drawing's cells have, and which of them are one symbol.
struct DrawnKinds {
    std::vector<DrawnShape> shapes;
    std::vector<std::vector<int>> members; ///< cells of each shape
    std::vector<int> of;                   ///< group of each shape, numbered from 0 without gaps

    /// How many cells each group has; some groups may have none.
    [[nodiscard]] std::vector<std::size_t> sizes() const;
    /// The shape that a cell is: where lines leave too little of it to tell two apart, the nearest.
    [[nodiscard]] std::optional<std::size_t> shapeOf(const DrawnCell& cell) const;
};

inline constexpr double kTold =
    0.012; ///< of what is seen: what another symbol has that one has not

/// How little two groups' cells differ from a cell, by what is seen of it.
struct NearestGroup {
    int group = -1;
    double off = 1;               ///< share of what is seen
    double second = 1;            ///< of the next group
    std::vector<int> asNear = {}; ///< groups that hardly differ more than it, itself among them
    bool isExact = false;         ///< all that is seen is as in it, and not so in any other
};

/// `seen` is CV_8U, as large as a cell, 255 where the cell is seen. Only groups that `may` is true
/// of are asked.
[[nodiscard]] NearestGroup nearestOf(const DrawnCell& cell, const cv::Mat& seen,
                                     const DrawnKinds& kinds,
                                     const std::function<bool(int group)>& may);

/// Whether what differs may be of a line over the cell: it comes from beyond.
[[nodiscard]] bool comesFromBeyond(const cv::Mat& off, const cv::Rect& inner);

} // namespace otherskein::trace::detail
