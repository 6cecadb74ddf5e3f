#pragma once

#include "trace/detail/lattice.h"

#include <vector>

namespace otherskein::trace::detail {

/// Numbers that stand along an edge of a chart, as far from each other as what they count: number n
/// stands at `origin` + n · `pitch`.
struct NumberSeries {
    double origin = 0; ///< px along, where 0 would stand
    double pitch = 0;  ///< px from n to n + 1
    double across = 0; ///< px, the middle of its numbers the other way
    int first = 0;
    int last = 0;
    std::vector<QRectF> boxes; ///< of its numbers

    [[nodiscard]] double at(double number) const { return origin + number * pitch; }
};

/// Where a word's box lies, in cells of a lattice that is not turned.
[[nodiscard]] cv::Rect2d inCells(const Lattice& lattice, const QRectF& box);

/// The series that a page's words have, in a row (`alongX`) or a column: at least `fewest` numbers,
/// in whole steps, each where the others foretell it. Numbers that grow both ways from a 0, as they
/// do from a chart's middle, count as negative before it. Those of most numbers come first; no
/// number is in two of them.
[[nodiscard]] std::vector<NumberSeries> numberSeriesOf(const std::vector<Word>& words, bool alongX,
                                                       std::size_t fewest = 3);

} // namespace otherskein::trace::detail
