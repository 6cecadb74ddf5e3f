#include "trace/detail/lattice_numbers.h"

#include "trace/detail/lattice_frame.h"
#include "trace/detail/lattice_grounds.h"
#include "trace/detail/number_series.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kPx = 12;        // of a cell put straight
constexpr int kMostApart = 12; // cells from an edge number to where the numbers beside it begin

/// Two series that stand along two edges of one grid.
struct Edges {
    NumberSeries columns;
    NumberSeries rows;
};

int stepOf(const NumberSeries& series) {
    return std::max(1,
                    static_cast<int>(std::lround(static_cast<double>(series.last - series.first) /
                                                 static_cast<double>(series.boxes.size() - 1))));
}

/// Whether the others stand beside these, not among them, and near.
bool standBeside(const NumberSeries& series, double place) {
    const double before = series.at(series.first) - place;
    const double behind = place - series.at(series.last);
    const double most = (stepOf(series) + kMostApart) * series.pitch;
    return (before > 0 && before < most) || (behind > 0 && behind < most);
}

std::vector<Edges> edgesOf(const std::vector<Word>& words) {
    constexpr double kMostAspect = 1.7; // of a cell's sides, as charts for other stitches have
    constexpr double kSquare = 1.01;    // of two numbers only, beside more along the other edge
    constexpr std::size_t kEnough = 3;
    std::vector<Edges> result;
    const std::vector<NumberSeries> columns = numberSeriesOf(words, true, kEnough - 1);
    for (const NumberSeries& rows : numberSeriesOf(words, false, kEnough - 1)) {
        for (const NumberSeries& one : columns) {
            const double aspect = one.pitch / rows.pitch;
            const std::size_t less = std::min(one.boxes.size(), rows.boxes.size());
            const std::size_t more = std::max(one.boxes.size(), rows.boxes.size());
            const double most = less >= kEnough ? kMostAspect : kSquare;
            if (more >= kEnough && aspect < most && 1 / aspect < most &&
                standBeside(one, rows.across) && standBeside(rows, one.across)) {
                result.push_back({one, rows});
            }
        }
    }
    return result;
}

/// The lattice whose line n is the one behind the cell of number n; numbers stand there, or, if
/// `areAtCells`, at the middle of that cell.
Lattice latticeUnder(const Edges& edges, bool areAtCells) {
    const double back = areAtCells ? 0.5 : 0;
    Lattice lattice;
    const auto& [columns, rows] = edges;
    lattice.toPage =
        cv::Matx33d(columns.pitch, 0, columns.at(back), 0, rows.pitch, rows.at(back), 0, 0, 1);
    lattice.pitch = (columns.pitch + rows.pitch) / 2;
    return lattice;
}

/// CV_8U, one for each cell of `area`: whether something is printed in it that no word is.
cv::Mat printedCells(const cv::Mat& bgr, const Lattice& lattice, const cv::Rect& area,
                     const std::vector<Word>& words) {
    constexpr double kPrinted = 24; // grey levels
    constexpr int kRim = 2;         // px
    cv::Mat grey;
    cv::cvtColor(straightened(bgr, lattice, kPx, area), grey, cv::COLOR_BGR2GRAY);
    std::vector<uchar> all(grey.begin<uchar>(), grey.end<uchar>());
    const auto high = all.begin() + static_cast<std::ptrdiff_t>(all.size() * 9 / 10);
    std::ranges::nth_element(all, high);
    const double paper = *high;
    cv::Mat printed = cv::Mat::zeros(area.size(), CV_8U);
    for (int row = 0; row < area.height; ++row) {
        for (int column = 0; column < area.width; ++column) {
            double least = 0;
            cv::minMaxLoc(grey(cv::Rect(column * kPx + kRim, row * kPx + kRim, kPx - 2 * kRim,
                                        kPx - 2 * kRim)),
                          &least);
            printed.at<uchar>(row, column) = least < paper - kPrinted ? 1 : 0;
        }
    }
    for (const Word& word : words) {
        if (word.text.size() > 1) {
            const cv::Rect2d cells = inCells(lattice, word.box);
            const cv::Point from(static_cast<int>(std::floor(cells.x)) - area.x,
                                 static_cast<int>(std::floor(cells.y)) - area.y);
            const cv::Point to(static_cast<int>(std::floor(cells.br().x)) - area.x + 1,
                               static_cast<int>(std::floor(cells.br().y)) - area.y + 1);
            printed(cv::Rect(from, to) & cv::Rect({}, printed.size())).setTo(0);
        }
    }
    return printed;
}

/// The line before the first cell that is surely of the grid.
int sureFirst(const NumberSeries& series) {
    return series.first > 0 ? series.first - 1 : series.first;
}

/// From the first to the last of these lines that has something printed behind or before it.
struct Ends {
    int first = 0;
    int last = 0;
};

/// The first line that a series may count from: 0, unless its numbers begin later, or go both ways
/// from a 0.
int firstLineOf(const NumberSeries& series) {
    const int step = stepOf(series);
    return series.first > 0 ? std::max(0, series.first - step) : series.first - step;
}

Ends endsOf(const cv::Mat& printed, const NumberSeries& series, int areaFirst, bool alongX,
            const Ends& across) {
    const auto isPrinted = [&](int cell) {
        const int at = cell - areaFirst;
        return cv::countNonZero(
                   alongX ? printed(cv::Rect(at, across.first, 1, across.last - across.first))
                          : printed(cv::Rect(across.first, at, across.last - across.first, 1))) > 0;
    };
    const int step = stepOf(series);
    const int first = firstLineOf(series);
    // A chart that is counted from its first cell begins there, be it bare or not.
    Ends ends{first == 0 ? 0 : sureFirst(series), series.last};
    for (int cell = ends.first - 1; cell >= first; --cell) {
        ends.first = isPrinted(cell) ? cell : ends.first;
    }
    for (int cell = series.last; cell < series.last + step - 1; ++cell) {
        ends.last = isPrinted(cell) ? cell + 1 : ends.last;
    }
    return ends;
}

/// The cells that the numbers count, out to where something is printed.
cv::Rect cellsOf(const cv::Mat& bgr, const Lattice& lattice, const Edges& edges,
                 const std::vector<Word>& words) {
    const auto& [columns, rows] = edges;
    const auto around = [](const NumberSeries& series) {
        return Ends{firstLineOf(series), series.last + stepOf(series)};
    };
    const Ends across = around(columns);
    const Ends down = around(rows);
    const cv::Rect area(across.first, down.first, across.last - across.first,
                        down.last - down.first);
    const cv::Mat printed = printedCells(bgr, lattice, area, words);
    // What the other way is surely of the grid.
    const auto sure = [](const NumberSeries& series, int areaFirst) {
        return Ends{sureFirst(series) - areaFirst, series.last - areaFirst};
    };
    const Ends width = endsOf(printed, columns, area.x, true, sure(rows, area.y));
    const Ends height = endsOf(printed, rows, area.y, false, sure(columns, area.x));
    return {width.first, height.first, width.last - width.first, height.last - height.first};
}

} // namespace

bool haveSameLines(const Lattice& grid, const Lattice& other) {
    constexpr double kNear = 0.15; // cells
    const cv::Matx33d toOther = other.toPage.inv();
    const auto placeOf = [&](double column, double row) {
        const cv::Point2d at = grid.corner(column, row);
        const cv::Vec3d place = toOther * cv::Vec3d(at.x, at.y, 1);
        return cv::Point2d(place[0] / place[2], place[1] / place[2]);
    };
    const auto isNear = [](double one, double place) { return std::abs(one - place) < kNear; };
    const cv::Point2d first = placeOf(0, 0);
    const cv::Point2d last = placeOf(grid.columns, grid.rows);
    return isNear(first.x, std::round(first.x)) && isNear(first.y, std::round(first.y)) &&
           isNear(last.x - first.x, grid.columns) && isNear(last.y - first.y, grid.rows);
}

std::optional<Lattice> gridOfNumbers(const cv::Mat& bgr, const LineMaps& fine,
                                     const std::vector<Word>& words) {
    constexpr double kMostCrossing = 0.3;
    constexpr int kFewest = 4; // cells
    std::optional<Lattice> best;
    double least = kMostCrossing;
    for (const Edges& edges : edgesOf(words)) {
        for (const bool areAtCells : {false, true}) {
            const Lattice lattice = latticeUnder(edges, areAtCells);
            const cv::Rect cells = cellsOf(bgr, lattice, edges, words);
            if (cells.width < kFewest || cells.height < kFewest) {
                continue;
            }
            const double crossing = groundsChangeAtLines(bgr, lattice, cells, true)
                                        ? 0
                                        : crossingAtLines(bgr, lattice, cells).value_or(1);
            if (crossing >= least) {
                continue;
            }
            least = crossing;
            const cv::Rect all = frameAround(bgr, fine, lattice, cells, true).value_or(cells);
            best = lattice.from(all.x, all.y);
            best->columns = all.width;
            best->rows = all.height;
        }
    }
    return best;
}

} // namespace otherskein::trace::detail
