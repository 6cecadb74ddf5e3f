#pragma once

#include "trace/detail/line_map.h"

namespace otherskein::trace::detail {

/// Which sides of cells have a line or a border of colours as long as the side.
struct Sides {
    cv::Mat above;  ///< CV_8U, (rows + 1) × columns: kLine, kNone or, between inked cells, kHidden
    cv::Mat before; ///< rows × (columns + 1)
    cv::Mat betweenRows; ///< the same half a cell further, where there should be none
    cv::Mat betweenColumns;
    cv::Mat solid; ///< CV_8U, rows × columns: 1 where a cell is ink all over
};

inline constexpr uchar kNone = 0;
inline constexpr uchar kLine = 1;
inline constexpr uchar kHidden = 2;

/// Of the cells of `area`; `seed`, in cells of `area`, is surely inside the grid.
[[nodiscard]] Sides sidesOf(const cv::Mat& page, const LineMaps& maps, const Lattice& lattice,
                            const cv::Rect& area, const cv::Rect& seed);

} // namespace otherskein::trace::detail
