#pragma once

#include "chart/chart.h"
#include "trace/detail/sheet.h"

namespace otherskein::trace::detail {

/// Lines over the cells of a sheet.
struct Backstitch {
    /// In half cells from the sheet's corner; their key is the index of their colour.
    std::vector<chart::Line> lines;
    std::vector<colour::Srgb8> colours;
    std::vector<char> over; ///< of each cell: a line lies over it or along it
    cv::Mat mask;           ///< CV_8U, as the sheet: 255 where a line lies, 0 elsewhere
};

/// Lines that are clearly backstitch, of one colour and width each: along sides of cells beyond the
/// grid's own lines, or from corner to corner or middle at any slope.
[[nodiscard]] Backstitch backstitchOf(const Sheet& sheet);

/// Where there are none.
[[nodiscard]] Backstitch noBackstitch(const Sheet& sheet);

/// What of each cell's look is not hidden under lines: rows of 0 and 1, as looks.
[[nodiscard]] cv::Mat visibleOf(const Sheet& sheet, const Backstitch& backstitch);

/// The sheet as it would be without the lines: what they hide is filled in from cells that look the
/// same where nothing is hidden. Of cells that no line touches, the sheet's own pixels.
[[nodiscard]] cv::Mat withoutLines(const Sheet& sheet, const Backstitch& backstitch);

} // namespace otherskein::trace::detail
