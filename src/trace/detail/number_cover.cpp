#include "trace/detail/number_cover.h"

#include "trace/detail/number_series.h"
#include "trace/detail/views.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kAround = 0.06; // cells: a box is as exact as its word's measures

cv::Rect2d grown(const cv::Rect2d& cells) {
    return {cells.x - kAround, cells.y - kAround, cells.width + 2 * kAround,
            cells.height + 2 * kAround};
}

} // namespace

std::vector<QRectF> numbersOverEdge(const std::vector<Word>& words, const FoundGrid& grid) {
    constexpr double kSame = 0.03; // of the pitch
    const Lattice lattice = latticeOf(grid);
    const cv::Rect2d all(0, 0, grid.columns, grid.rows);
    const cv::Point2d size = lattice.cellSize(all);
    std::vector<QRectF> boxes;
    const auto add = [&](const QRectF& box) {
        const cv::Rect2d covered = grown(inCells(lattice, box));
        const cv::Rect2d within = covered & all;
        // What lies all within is a symbol.
        if (within.area() > 0 && within.area() <= (1 - kAround) * covered.area()) {
            boxes.push_back(box);
        }
    };
    for (const Word& word : words) {
        // Of two digits or more: no symbol has so many.
        if (word.text.size() > 1 &&
            std::ranges::all_of(word.text, [](QChar sign) { return sign.isDigit(); })) {
            add(word.box);
        }
    }
    for (const bool alongX : {true, false}) {
        const double pitch = alongX ? size.x : size.y;
        for (const NumberSeries& series : numberSeriesOf(words, alongX)) {
            if (std::abs(series.pitch / pitch - 1) < kSame) {
                std::ranges::for_each(series.boxes, add);
            }
        }
    }
    return boxes;
}

void coverEdgeNumbers(const std::vector<Word>& words, const FoundGrid& grid, int cell,
                      cv::Mat& mask, std::span<char> masked) {
    const Lattice lattice = latticeOf(grid);
    const cv::Rect2d all(0, 0, grid.columns, grid.rows);
    for (const QRectF& box : numbersOverEdge(words, grid)) {
        const cv::Rect2d within = grown(inCells(lattice, box)) & all;
        const cv::Rect2d px(within.x * cell, within.y * cell, within.width * cell,
                            within.height * cell);
        mask(cv::Rect(px) & cv::Rect({}, mask.size())).setTo(255);
        const int right = static_cast<int>(std::ceil(within.br().x));
        const int bottom = static_cast<int>(std::ceil(within.br().y));
        for (int row = static_cast<int>(within.y); row < bottom; ++row) {
            for (int column = static_cast<int>(within.x); column < right; ++column) {
                masked[static_cast<std::size_t>(row * grid.columns + column)] = 1;
            }
        }
    }
}

} // namespace otherskein::trace::detail
