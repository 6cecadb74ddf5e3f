#include "trace/detail/lattice_extent.h"

#include "trace/detail/edges.h"
#include "trace/detail/tiles.h"

#include <opencv2/imgproc.hpp>

#include <array>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr int kLeastCells = 4;
constexpr int kMostCells = 2000;

/// Which sides of cells have a line or a border of colours, and which cells are all ink.
struct Evidence {
    cv::Mat above;  ///< CV_8U, (rows + 1) × columns: 1 where there is one above cell (row, column)
    cv::Mat before; ///< CV_8U, rows × (columns + 1)
    cv::Mat solid;  ///< CV_8U, rows × columns
};

/// What four fifths of the values are at least.
double lowFifth(const cv::Mat& values) {
    std::array<std::size_t, 256> counts{};
    for (int y = 0; y < values.rows; ++y) {
        const uchar* row = values.ptr(y);
        for (int x = 0; x < values.cols; ++x) {
            ++counts[row[x]];
        }
    }
    std::size_t sum = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        sum += counts[i];
        if (sum > values.total() / 5) {
            return static_cast<double>(i);
        }
    }
    return 0;
}

/// Per side, the mean edge along it, best in a band around where it should be, less what paper and
/// print give anywhere.
cv::Mat sides(const cv::Mat& change, int along, int across, int cell) {
    cv::Mat mean;
    cv::blur(change, mean, {std::max(3, cell * 7 / 10), 1});
    cv::Mat result(across + 1, along, CV_32F, cv::Scalar(0));
    const int reach = std::max(2, cell / 6);
    for (int i = 0; i <= across; ++i) {
        for (int k = 0; k < along; ++k) {
            uchar most = 0;
            for (int y = std::max(0, i * cell - reach); y < std::min(mean.rows, i * cell + reach);
                 ++y) {
                most = std::max(most, mean.at<uchar>(y, k * cell + cell / 2));
            }
            result.at<float>(i, k) = most;
        }
    }
    return result - lowFifth(mean);
}

/// What counts as a line: a third of what most sides of the seed show.
cv::Mat strong(const cv::Mat& sides, const cv::Rect& seed) {
    constexpr float kLeastEdge = 6; // of 255; below is paper grain
    const cv::Mat inside = sides(seed & cv::Rect(0, 0, sides.cols, sides.rows)).clone();
    std::vector<float> sorted(inside.begin<float>(), inside.end<float>());
    const auto high = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 6 / 10);
    std::ranges::nth_element(sorted, high);
    return (sides > std::max(kLeastEdge, *high * 0.35F)) / 255;
}

Evidence evidenceOf(const cv::Mat& straight, const cv::Rect& seed, int columns, int rows,
                    int cell) {
    Evidence result;
    result.above = strong(sides(changeAlongX(straight), columns, rows, cell), seed);
    cv::transpose(strong(sides(changeAlongYTransposed(straight), rows, columns, cell),
                         {seed.y, seed.x, seed.height, seed.width}),
                  result.before);

    cv::Mat grey;
    cv::cvtColor(straight, grey, cv::COLOR_BGR2GRAY);
    cv::Mat small;
    cv::resize(grey, small, {columns, rows}, 0, 0, cv::INTER_AREA);
    std::vector<uchar> sorted(small.begin<uchar>(), small.end<uchar>());
    const auto paper = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 95 / 100);
    std::ranges::nth_element(sorted, paper);
    result.solid = (small < *paper * 0.55) / 255;
    return result;
}

/// Where lines as long as a cell run, by the same shape and threshold: digits have none so long.
cv::Mat longSides(const cv::Mat& straight, const cv::Rect& seed, int columns, int rows, int cell,
                  bool alongX) {
    const cv::Mat edges = alongX ? edgesAlongX(straight, cell / 4, cell * 11 / 10)
                                 : edgesAlongYTransposed(straight, cell / 4, cell * 11 / 10);
    return alongX ? strong(sides(edges, columns, rows, cell), seed)
                  : strong(sides(edges, rows, columns, cell),
                           {seed.y, seed.x, seed.height, seed.width});
}

struct Span {
    int first = 0;
    int last = 0; ///< with it
};

/// Share of the cells of a row within `columns` that have a line at one side at least.
double rowShare(const Evidence& evidence, int row, const Span& columns) {
    int count = 0;
    for (int c = columns.first; c <= columns.last; ++c) {
        count += evidence.before.at<uchar>(row, c) + evidence.before.at<uchar>(row, c + 1) > 0 ||
                         evidence.solid.at<uchar>(row, c) != 0
                     ? 1
                     : 0;
    }
    return static_cast<double>(count) / (columns.last - columns.first + 1);
}

double columnShare(const Evidence& evidence, int column, const Span& rows) {
    int count = 0;
    for (int r = rows.first; r <= rows.last; ++r) {
        count +=
            evidence.above.at<uchar>(r, column) + evidence.above.at<uchar>(r + 1, column) > 0 ||
                    evidence.solid.at<uchar>(r, column) != 0
                ? 1
                : 0;
    }
    return static_cast<double>(count) / (rows.last - rows.first + 1);
}

template <typename Share>
void adjust(Span& span, int count, const Share& share) {
    std::vector<double> inside;
    for (int i = span.first; i <= span.last; ++i) {
        inside.push_back(share(i));
    }
    std::ranges::nth_element(inside,
                             inside.begin() + static_cast<std::ptrdiff_t>(inside.size() / 2));
    const double usual = inside[inside.size() / 2];
    const double least = std::max(0.2, usual * 0.55);
    while (span.last > span.first && share(span.first) < least) {
        ++span.first;
    }
    while (span.last > span.first && share(span.last) < least) {
        --span.last;
    }
    // One faint row inside (a fold, a bare row without lines) does not end the grid.
    const auto goesOn = [&](int i, int step) {
        return (i >= 0 && i < count && share(i) >= least) ||
               (i + step >= 0 && i + step < count && share(i) >= least * 0.3 &&
                share(i + step) >= least);
    };
    while (span.first > 0 && goesOn(span.first - 1, -1)) {
        --span.first;
    }
    while (span.last + 1 < count && goesOn(span.last + 1, 1)) {
        ++span.last;
    }
}

/// Takes rows off the ends (of numbers beside the grid) that have no line at their far side, and
/// where the columns' lines do not go on either. `lines`: (rows + 1) × columns, `beside`:
/// rows × (columns + 1).
void peel(Span& rows, const Span& columns, const cv::Mat& lines, const cv::Mat& beside) {
    constexpr int kMost = 2;        // rows of digits, of one row of numbers
    constexpr double kLeast = 0.45; // of the share of a good line
    const auto shareOf = [&](const cv::Mat& which, int row, int last) {
        return cv::mean(which.row(row).colRange(columns.first, last + 1))[0];
    };
    std::vector<double> far;
    std::vector<double> through;
    for (int i = rows.first; i <= rows.last; ++i) {
        far.push_back(shareOf(lines, i, columns.last));
        through.push_back(shareOf(beside, i, columns.last + 1));
    }
    far.push_back(shareOf(lines, rows.last + 1, columns.last));
    const auto usual = [](std::vector<double> shares) {
        std::ranges::sort(shares);
        return shares[shares.size() * 8 / 10];
    };
    const double leastFar = kLeast * usual(far);
    const double leastThrough = kLeast * usual(through);
    const auto isIn = [&](int row, int line) {
        return far[static_cast<std::size_t>(line - rows.first)] >= leastFar ||
               through[static_cast<std::size_t>(row - rows.first)] >= leastThrough;
    };
    Span inside = rows;
    for (int off = 0; off < kMost && !isIn(inside.first, inside.first); ++off) {
        ++inside.first;
    }
    for (int off = 0; off < kMost && !isIn(inside.last, inside.last + 1); ++off) {
        --inside.last;
    }
    if (inside.last - inside.first + 1 >= kLeastCells) {
        rows = inside;
    }
}

/// Cells whose corners all lie on the page, of what `wanted` asks.
cv::Rect onPage(const cv::Mat& page, const Lattice& lattice, cv::Rect wanted) {
    const auto outside = [&](double column, double row) {
        const cv::Point2d at = lattice.corner(column, row);
        return at.x < -lattice.pitch || at.y < -lattice.pitch || at.x > page.cols + lattice.pitch ||
               at.y > page.rows + lattice.pitch;
    };
    const auto allOutside = [&](bool isRow, int line) {
        for (int k = 0; k <= 4; ++k) {
            const double at =
                isRow ? wanted.x + wanted.width * k / 4.0 : wanted.y + wanted.height * k / 4.0;
            if (isRow ? !outside(at, line) : !outside(line, at)) {
                return false;
            }
        }
        return true;
    };
    while (wanted.height > 1 && allOutside(true, wanted.y)) {
        ++wanted.y;
        --wanted.height;
    }
    while (wanted.height > 1 && allOutside(true, wanted.y + wanted.height)) {
        --wanted.height;
    }
    while (wanted.width > 1 && allOutside(false, wanted.x)) {
        ++wanted.x;
        --wanted.width;
    }
    while (wanted.width > 1 && allOutside(false, wanted.x + wanted.width)) {
        --wanted.width;
    }
    return wanted;
}

} // namespace

std::optional<cv::Rect> extentOf(const cv::Mat& bgr, const Lattice& lattice,
                                 const cv::Rect2d& seed) {
    const int cell = std::clamp(static_cast<int>(std::lround(lattice.pitch)), 12, 28);
    int reach = static_cast<int>(kTileSide / lattice.pitch) + 6;
    for (int tries = 0; tries < 6; ++tries, reach += reach) {
        const cv::Rect area = onPage(bgr, lattice,
                                     {static_cast<int>(std::floor(seed.x)) - reach,
                                      static_cast<int>(std::floor(seed.y)) - reach,
                                      static_cast<int>(std::ceil(seed.width)) + 2 * reach,
                                      static_cast<int>(std::ceil(seed.height)) + 2 * reach});
        if (area.width < kLeastCells || area.height < kLeastCells || area.width > 2 * kMostCells ||
            area.height > 2 * kMostCells) {
            return std::nullopt;
        }
        const auto within = [](double first, double length, int count) {
            Span span{static_cast<int>(std::floor(first)),
                      static_cast<int>(std::ceil(first + length))};
            span.first = std::clamp(span.first, 0, count - 1);
            span.last = std::clamp(span.last, span.first, count - 1);
            return span;
        };
        Span columns = within(seed.x - area.x, seed.width, area.width);
        Span rows = within(seed.y - area.y, seed.height, area.height);
        const cv::Mat straight = straightened(bgr, lattice, cell, area);
        const cv::Rect inside(columns.first, rows.first, columns.last - columns.first + 1,
                              rows.last - rows.first + 1);
        const Evidence evidence = evidenceOf(straight, inside, area.width, area.height, cell);
        for (int round = 0; round < 6; ++round) {
            const Span columnsBefore = columns;
            const Span rowsBefore = rows;
            adjust(rows, area.height, [&](int r) { return rowShare(evidence, r, columns); });
            adjust(columns, area.width, [&](int c) { return columnShare(evidence, c, rows); });
            if (columns.first == columnsBefore.first && columns.last == columnsBefore.last &&
                rows.first == rowsBefore.first && rows.last == rowsBefore.last) {
                break;
            }
        }
        const bool atBorder = columns.first == 0 || rows.first == 0 ||
                              columns.last + 1 == area.width || rows.last + 1 == area.height;
        const bool mayGrow = area.width >= static_cast<int>(seed.width) + 2 * reach - 2 ||
                             area.height >= static_cast<int>(seed.height) + 2 * reach - 2;
        if (atBorder && mayGrow && tries < 5) {
            continue;
        }
        const Span grownColumns = columns;
        const cv::Mat alongX = longSides(straight, inside, area.width, area.height, cell, true);
        const cv::Mat alongY = longSides(straight, inside, area.width, area.height, cell, false);
        peel(columns, rows, alongY, alongX.t());
        peel(rows, grownColumns, alongX, alongY.t());
        const cv::Rect found(area.x + columns.first, area.y + rows.first,
                             columns.last - columns.first + 1, rows.last - rows.first + 1);
        if (found.width < kLeastCells || found.height < kLeastCells || found.width > kMostCells ||
            found.height > kMostCells) {
            return std::nullopt;
        }
        return found;
    }
    return std::nullopt;
}

} // namespace otherskein::trace::detail
