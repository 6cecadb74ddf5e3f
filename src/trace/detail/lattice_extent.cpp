#include "trace/detail/lattice_extent.h"

#include "trace/detail/edges.h"
#include "trace/detail/tiles.h"

#include <opencv2/imgproc.hpp>

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
    std::vector<uchar> sorted(mean.begin<uchar>(), mean.end<uchar>());
    const auto low = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 5);
    std::ranges::nth_element(sorted, low);
    return result - static_cast<double>(*low);
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

constexpr double kLeastLine = 1;    // of 255, of a line's edges above what lies between lines
constexpr double kClearly = 1.6;    // how much more a line shows than what lies between lines
constexpr double kWider = 2.1;      // a line of 2 px beside one of 1 px shows up to twice as much
constexpr double kNothing = 0.25;   // of a line: what a place without one shows
constexpr double kAlike = 0.5;      // of a line's evidence: another as thick
constexpr double kFinestPitch = 11; // px; 12 is the finest that is looked for
constexpr double kCoarsestPitch = 115; // px
constexpr double kUsualAspect = 1.7;   // of cells that are not square
constexpr double kLookedAt = 1400;     // px of the page each way: enough lines to be sure

/// What lines show of themselves where others cross them.
struct Shown {
    double least = 255; ///< at the kind of crossing where they show least
    double most = 0;
};

/// What lines along x show, `unit` px from one to the next, by number of the line modulo `modulus`;
/// empty when there are too few. Looked at by kind of place along them: `kinds` places `step` px
/// apart, then again. A line goes on through all of them; symbols, however regular, end before the
/// border of their cell.
std::vector<Shown> lineEvidence(const cv::Mat& change, double unit, int modulus, double step,
                                int kinds) {
    cv::Mat shown;
    cv::blur(change, shown, {2 * std::max(1, static_cast<int>(step * 0.15)) + 1, 1});
    const int reach = 2 * std::max(1, static_cast<int>(unit * 0.1)) + (unit < 8 ? 1 : 3);
    cv::dilate(shown, shown, cv::getStructuringElement(cv::MORPH_RECT, {1, reach}));
    const int lines = static_cast<int>(shown.rows / unit);
    const int places = static_cast<int>(shown.cols / step);
    std::vector<std::vector<double>> means(static_cast<std::size_t>(modulus * kinds));
    for (int i = 0; i < lines; ++i) {
        const int y = std::clamp(static_cast<int>(std::lround(i * unit - 0.5)), 0, shown.rows - 1);
        const uchar* row = shown.ptr(y);
        std::vector<double> sum(static_cast<std::size_t>(kinds), 0);
        for (int k = 0; k < places; ++k) {
            const int x =
                std::clamp(static_cast<int>(std::lround(k * step - 0.5)), 0, shown.cols - 1);
            sum[static_cast<std::size_t>(k % kinds)] += row[x];
        }
        for (int k = 0; k < kinds; ++k) {
            const int count = std::max(1, (places - k + kinds - 1) / kinds);
            means[static_cast<std::size_t>(i % modulus * kinds + k)].push_back(
                sum[static_cast<std::size_t>(k)] / count);
        }
    }
    std::vector<Shown> result(static_cast<std::size_t>(modulus));
    for (int i = 0; i < modulus; ++i) {
        Shown& one = result[static_cast<std::size_t>(i)];
        for (int k = 0; k < kinds; ++k) {
            auto& values = means[static_cast<std::size_t>(i * kinds + k)];
            if (values.size() < 2) {
                return {};
            }
            const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
            std::ranges::nth_element(values, middle);
            one.least = std::min(one.least, *middle);
            one.most = std::max(one.most, *middle);
        }
    }
    return result;
}

/// New cells of `num` / `den` old ones, the first line at old line `offset` / `den`.
struct Scaling {
    int num = 1;
    int den = 1;
    int offset = 0;

    [[nodiscard]] double factor() const { return static_cast<double>(num) / den; }
    [[nodiscard]] double start() const { return static_cast<double>(offset) / den; }
};

bool isClear(double line, double between) {
    return line > between + kLeastLine && line > kClearly * between;
}

/// Printed at a pitch that is no whole number of px, every second line may be twice as bold less
/// what its smoothing takes: a weaker line is none only below that.
bool isNone(const Shown& weaker, const Shown& line) {
    return line.least > weaker.least + kLeastLine && line.least > kWider * weaker.least;
}

Scaling scalingOf(const cv::Mat& change, int cell, double pitch) {
    for (int parts = 10; parts >= 2; --parts) {
        if (pitch / parts < kFinestPitch) {
            continue;
        }
        const double unit = cell / (2.0 * parts);
        const std::vector<Shown> shown = lineEvidence(change, unit, 2 * parts, unit, 4 * parts);
        double least = 255;
        double between = 0;
        for (std::size_t i = 0; i < shown.size(); ++i) {
            (i % 2 == 0 ? least : between) =
                i % 2 == 0 ? std::min(least, shown[i].least) : std::max(between, shown[i].least);
        }
        // Bold are every fourth line and less: second and third lines show as much as the first.
        if (!shown.empty() && isClear(least, between) &&
            (parts > 3 || least > kAlike * shown[0].least)) {
            return {1, parts, 0};
        }
        if (parts == 2 && !shown.empty() && isNone(shown[0], shown[2]) &&
            isClear(shown[2].least, between)) {
            return {2, 2, 1}; // symbols were taken for the lines: half a cell off
        }
    }
    // Every second or third line; also 1½ cells, where symbols made every third half cell fit.
    for (const auto& [times, parts] : {std::pair{2, 1}, {3, 1}, {2, 3}}) {
        if (pitch * times / parts > kCoarsestPitch || pitch / parts < kFinestPitch) {
            continue;
        }
        const std::vector<Shown> shown =
            lineEvidence(change, static_cast<double>(cell) / parts, times, cell / 2.0, 2 * times);
        const auto best = std::ranges::max_element(shown, {}, &Shown::least);
        bool othersAreNone = !shown.empty();
        for (auto one = shown.begin(); one != shown.end(); ++one) {
            othersAreNone = othersAreNone &&
                            (one == best || (isNone(*one, *best) &&
                                             (parts == 1 || one->least < kNothing * best->least)));
        }
        if (othersAreNone) {
            return {times, parts, static_cast<int>(best - shown.begin())};
        }
    }
    return {};
}

/// Which of the even and the odd lines show more.
int betterHalf(const cv::Mat& change, int cell) {
    const std::vector<Shown> shown = lineEvidence(change, cell, 2, cell / 2.0, 4);
    return !shown.empty() && shown[1].least > shown[0].least ? 1 : 0;
}

} // namespace

void decidePitch(const cv::Mat& bgr, FoundLattice& found) {
    const Lattice& lattice = found.lattice;
    const int cell = std::max(8, static_cast<int>(std::lround(lattice.pitch)));
    const int most = static_cast<int>(kLookedAt / lattice.pitch) + 1;
    cv::Rect area(static_cast<int>(found.cells.x), static_cast<int>(found.cells.y),
                  std::max(4, static_cast<int>(found.cells.width)),
                  std::max(4, static_cast<int>(found.cells.height)));
    if (area.width > most) {
        area.x += (area.width - most) / 2;
        area.width = most;
    }
    if (area.height > most) {
        area.y += (area.height - most) / 2;
        area.height = most;
    }
    const Lattice near = settled(bgr, lattice, area);
    const cv::Point2d middle(area.x + area.width / 2.0, area.y + area.height / 2.0);
    const cv::Point2d at = near.corner(middle.x, middle.y);
    double wide = cv::norm(near.corner(middle.x + 1, middle.y) - at);
    double high = cv::norm(near.corner(middle.x, middle.y + 1) - at);
    if (!(wide > kFinestPitch / 2 && high > kFinestPitch / 2 && wide < 2 * kCoarsestPitch &&
          high < 2 * kCoarsestPitch)) {
        return; // it did not fit
    }
    const cv::Mat straight = straightened(bgr, near, cell, area);
    const cv::Mat changeX = changeAlongX(straight);
    const cv::Mat changeY = changeAlongYTransposed(straight);
    const auto isUsual = [](double aspect) {
        return aspect < kUsualAspect && aspect > 1 / kUsualAspect;
    };
    Scaling rows = scalingOf(changeX, cell, high);
    Scaling columns = scalingOf(changeY, cell, wide);
    if (!isUsual(wide / high)) {
        // One way only half cells were taken for cells, perhaps where symbols hide it.
        const bool rowsAreFine = wide > high;
        Scaling& fine = rowsAreFine ? rows : columns;
        (rowsAreFine ? columns : rows) = {};
        if (fine.num != 2 || fine.den != 1) {
            fine = {2, 1, betterHalf(rowsAreFine ? changeX : changeY, cell)};
        }
    } else if (!isUsual(wide * columns.factor() / (high * rows.factor()))) {
        rows = rows.den == 1 ? rows : Scaling{};
        columns = columns.den == 1 ? columns : Scaling{};
    }
    if (!isUsual(wide * columns.factor() / (high * rows.factor()))) {
        return;
    }
    wide *= columns.factor();
    high *= rows.factor();
    const double left = area.x + columns.start();
    const double top = area.y + rows.start();
    found.lattice.toPage =
        near.toPage * cv::Matx33d(columns.factor(), 0, left, 0, rows.factor(), top, 0, 0, 1);
    found.lattice.pitch = (wide + high) / 2;
    found.cells = {(found.cells.x - left) / columns.factor(), (found.cells.y - top) / rows.factor(),
                   found.cells.width / columns.factor(), found.cells.height / rows.factor()};
}

bool showsLines(const cv::Mat& bgr, const Lattice& grid) {
    const int cell = std::clamp(static_cast<int>(std::lround(grid.pitch)), 12, 28);
    const cv::Mat straight = straightened(bgr, grid, cell, {0, 0, grid.columns, grid.rows});
    for (const cv::Mat& change : {changeAlongX(straight), changeAlongYTransposed(straight)}) {
        const std::vector<Shown> shown = lineEvidence(change, cell / 2.0, 2, cell / 2.0, 2);
        if (shown.empty() || shown[0].least <= shown[1].least) {
            return false;
        }
    }
    return true;
}

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
