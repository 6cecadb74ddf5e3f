#include "trace/detail/lattice_extent.h"

#include "trace/detail/median.h"

#include "trace/detail/cell_sides.h"
#include "trace/detail/tiles.h"

#include <algorithm>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr int kLeastCells = 4;
constexpr int kMostCells = 2000;

struct Span {
    int first = 0;
    int last = 0; ///< with it
};

/// Share of line of what is known; none where nothing is.
struct Share {
    static constexpr int kLeastKnown = 2;
    int lines = 0;
    int known = 0;

    void add(uchar side) {
        known += side != kHidden ? 1 : 0;
        lines += side == kLine ? 1 : 0;
    }
    [[nodiscard]] double value() const {
        return known < kLeastKnown ? 0 : static_cast<double>(lines) / known;
    }
};

/// The lines across rows `rows` that go on through nearly all of them. `across` has a row for each
/// row, a column for each line; `of` are the cells between the lines.
std::vector<int> goingThrough(const cv::Mat& across, const Span& rows, const Span& of) {
    std::vector<double> shares;
    for (int line = of.first; line <= of.last + 1; ++line) {
        Share share;
        for (int row = rows.first; row <= rows.last; ++row) {
            share.add(across.at<uchar>(row, line));
        }
        shares.push_back(share.known * 4 < rows.last - rows.first + 1 ? 0 : share.value());
    }
    std::vector<double> sorted = shares;
    std::ranges::sort(sorted);
    const double least = std::max(0.5, 0.8 * sorted[sorted.size() * 8 / 10]);
    std::vector<int> result;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (shares[i] >= least) {
            result.push_back(of.first + static_cast<int>(i));
        }
    }
    return result;
}

double throughShare(const cv::Mat& across, int row, const std::vector<int>& lines) {
    Share share;
    for (const int line : lines) {
        share.add(across.at<uchar>(row, line));
    }
    return share.value();
}

/// Where no line goes through, as at the borders of colours: share of the cells of a row with a
/// line at one side at least.
double besideShare(const cv::Mat& across, int row, const Span& of) {
    Share share;
    for (int i = of.first; i <= of.last; ++i) {
        const uchar one = across.at<uchar>(row, i);
        const uchar other = across.at<uchar>(row, i + 1);
        share.add(one == kLine || other == kLine ? kLine : std::max(one, other));
    }
    return share.value();
}

/// The longest run that shares something with `near` and has no two empty rows one after the other
/// (one may be bare, or hidden by a fold), from the first that is surely in to the last.
Span longestRun(const std::vector<double>& shares, double empty, double in, const Span& near) {
    const int count = static_cast<int>(shares.size());
    const auto at = [&](int i) { return shares[static_cast<std::size_t>(i)]; };
    const auto isEmpty = [&](int i) { return i < 0 || i >= count || at(i) < empty; };
    Span best{near.first, near.first};
    int longest = 0;
    for (int i = 0; i < count; ++i) {
        if (at(i) < in) {
            continue;
        }
        const int first = i;
        int last = i;
        for (; !isEmpty(i) || !isEmpty(i + 1); ++i) {
            last = i < count && at(i) >= in ? i : last;
        }
        if (last - first + 1 > longest && first <= near.last && last >= near.first) {
            longest = last - first + 1;
            best = {first, last};
        }
    }
    return best;
}

/// Moves the ends of `rows` to where the lines across them end. `across` are the sides that those
/// lines have there, `own` (a row more) those of the lines along the rows; `solid` cells are inked.
void adjustRows(Span& rows, const Span& columns, const cv::Mat& across, const cv::Mat& own,
                const cv::Mat& solid) {
    constexpr std::size_t kEnough = 2; // the borders of a grid without other lines
    constexpr double kIsIn = 0.55;     // of the usual share
    constexpr double kIsEmpty = 0.2;
    constexpr double kLeastUsual = 0.3;
    constexpr double kSurely = 0.8;
    constexpr double kIsLine = 0.45;  // of a good line's share
    constexpr double kIsBorder = 0.8; // of a whole line
    constexpr int kMostPeeled = 2;    // rows of digits, of one row of numbers
    constexpr int kMostHidden = 8;
    const std::vector<int> lines = goingThrough(across, rows, columns);
    // Of what is usual in the rows that are surely in: by the lines that go through, or, where
    // colours hide them, by the colours' borders.
    const auto ofUsual = [&](const auto& shareOf) {
        std::vector<double> values;
        for (int row = 0; row < across.rows; ++row) {
            values.push_back(shareOf(row));
        }
        const double usual = medianOf(
            std::vector<double>(values.begin() + rows.first, values.begin() + rows.last + 1));
        for (double& one : values) {
            one /= std::max(kLeastUsual, usual);
        }
        return values;
    };
    std::vector<double> shares =
        ofUsual([&](int row) { return besideShare(across, row, columns); });
    if (lines.size() >= kEnough) {
        const std::vector<double> through =
            ofUsual([&](int row) { return throughShare(across, row, lines); });
        for (std::size_t i = 0; i < shares.size(); ++i) {
            shares[i] = std::max(shares[i], through[i]);
        }
    }
    rows = longestRun(shares, kIsEmpty, kIsIn, rows);
    // Numbers beside the grid may carry some lines on, but there is no line behind them.
    const auto ownShare = [&](int line) {
        Share share;
        for (int i = columns.first; i <= columns.last; ++i) {
            share.add(own.at<uchar>(line, i));
        }
        return share.value();
    };
    std::vector<double> owns;
    for (int line = rows.first; line <= rows.last + 1; ++line) {
        owns.push_back(ownShare(line));
    }
    std::ranges::sort(owns);
    const double leastOwn = kIsLine * owns[owns.size() * 8 / 10];
    const auto isWeak = [&](int row, int line) {
        return shares[static_cast<std::size_t>(row)] < kSurely && ownShare(line) < leastOwn;
    };
    for (int i = 0; i < kMostPeeled && rows.last > rows.first; ++i) {
        rows.first += isWeak(rows.first, rows.first) ? 1 : 0;
        rows.last -= isWeak(rows.last, rows.last + 1) ? 1 : 0;
    }
    // Colours may hide the lines of the last rows; the border shows that they belong to the grid.
    const auto reachesBorder = [&](int row, int step) {
        for (int i = 0; i < kMostHidden && row >= 0 && row < across.rows; ++i, row += step) {
            if (shares[static_cast<std::size_t>(row)] < 0.1) {
                return 0;
            }
            if (ownShare(step > 0 ? row + 1 : row) >= kIsBorder) {
                return i + 1;
            }
        }
        return 0;
    };
    // Where the lines end at one that is as whole, the grid does, whatever stands in a row behind
    // it. What inked cells in front of it end at is no such line.
    const auto isBorder = [&](int line, int inside) {
        Share share;
        for (int i = columns.first; i <= columns.last; ++i) {
            share.add(solid.at<uchar>(inside, i) != 0 ? kHidden : own.at<uchar>(line, i));
        }
        return share.known * 4 >= columns.last - columns.first + 1 && share.value() >= kIsBorder;
    };
    rows.first -= isBorder(rows.first, rows.first) ? 0 : reachesBorder(rows.first - 1, -1);
    rows.last += isBorder(rows.last + 1, rows.last) ? 0 : reachesBorder(rows.last + 1, 1);
}

double lineShare(const cv::Mat& sides) {
    Share share;
    for (int y = 0; y < sides.rows; ++y) {
        for (int x = 0; x < sides.cols; ++x) {
            share.add(sides.at<uchar>(y, x));
        }
    }
    return share.value();
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

std::optional<Extent> extentOf(const cv::Mat& bgr, const LineMaps& maps, const Lattice& lattice,
                               const cv::Rect2d& seed) {
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
        const cv::Rect inside(columns.first, rows.first, columns.last - columns.first + 1,
                              rows.last - rows.first + 1);
        const Sides found = sidesOf(bgr, maps, lattice, area, inside);
        cv::Mat aboveTurned;
        cv::Mat beforeTurned;
        cv::Mat solidTurned;
        cv::transpose(found.above, aboveTurned);
        cv::transpose(found.before, beforeTurned);
        cv::transpose(found.solid, solidTurned);
        for (int round = 0; round < 6; ++round) {
            const Span columnsBefore = columns;
            const Span rowsBefore = rows;
            adjustRows(rows, columns, found.before, found.above, found.solid);
            adjustRows(columns, rows, aboveTurned, beforeTurned, solidTurned);
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
        const cv::Rect inGrid(columns.first, rows.first, columns.last - columns.first + 1,
                              rows.last - rows.first + 1);
        const auto [lines, moreLines] =
            std::minmax({lineShare(found.above(inGrid)), lineShare(found.before(inGrid))});
        const double standOut =
            std::min(lineShare(found.above(inGrid)) - lineShare(found.betweenRows(inGrid)),
                     lineShare(found.before(inGrid)) - lineShare(found.betweenColumns(inGrid)));
        const cv::Rect extent(area.x + columns.first, area.y + rows.first,
                              columns.last - columns.first + 1, rows.last - rows.first + 1);
        if (extent.width < kLeastCells || extent.height < kLeastCells ||
            extent.width > kMostCells || extent.height > kMostCells) {
            return std::nullopt;
        }
        return Extent{extent, lines, moreLines, standOut};
    }
    return std::nullopt;
}

} // namespace otherskein::trace::detail
