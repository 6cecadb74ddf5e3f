#include "trace/detail/lattice.h"

#include "trace/detail/edges.h"
#include "trace/detail/lattice_extent.h"
#include "trace/detail/lattice_fit.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostGrids = 8;
constexpr int kFirstGap = 5;      // px; dotted lines at 300 dpi
constexpr int kFirstLongest = 13; // px; longer than most strokes of symbols

cv::Rect2d boxOf(const Lattice& lattice) {
    std::vector<cv::Point2f> corners;
    for (const auto& [column, row] : {std::pair{0, 0}, {1, 0}, {0, 1}, {1, 1}}) {
        corners.emplace_back(lattice.corner(column * lattice.columns, row * lattice.rows));
    }
    return cv::boundingRect(corners);
}

void use(const Tiles& tiles, const cv::Rect2d& box, std::vector<char>& used) {
    for (std::size_t i = 0; i < tiles.tiles.size(); ++i) {
        if (box.contains(tiles.tiles[i].centre)) {
            used[i] = 1;
        }
    }
}

/// Whether a quarter of the smaller lies within the other.
bool overlap(const Lattice& one, const Lattice& other) {
    const cv::Rect2d a = boxOf(one);
    const cv::Rect2d b = boxOf(other);
    return (a & b).area() > 0.25 * std::min(a.area(), b.area());
}

cv::Rect outward(const cv::Rect2d& cells, int more) {
    const int left = static_cast<int>(std::floor(cells.x)) - more;
    const int top = static_cast<int>(std::floor(cells.y)) - more;
    return {left, top, static_cast<int>(std::ceil(cells.x + cells.width)) + more - left,
            static_cast<int>(std::ceil(cells.y + cells.height)) + more - top};
}

std::optional<Lattice> gridAround(const cv::Mat& bgr, const Lattice& rough, cv::Rect2d seed) {
    Lattice near = settled(bgr, rough, outward(seed, 4));
    std::optional<cv::Rect> extent;
    // Far from the seed the lines are only foretold: what was found there makes them exact.
    for (int round = 0; round < 4; ++round) {
        const auto next = extentOf(bgr, near, seed);
        if (!next) {
            break;
        }
        const bool same = extent && *extent == *next;
        extent = next;
        near = settled(bgr, near, *extent);
        if (same) {
            break;
        }
        seed = *extent;
    }
    if (!extent) {
        return std::nullopt;
    }
    Lattice grid = near.from(extent->x, extent->y);
    grid.columns = extent->width;
    grid.rows = extent->height;
    return grid;
}

constexpr double kLeastLine = 1;    // of 255, of a line's edges above what lies between lines
constexpr double kClearly = 1.6;    // how much more a line shows than what lies between lines
constexpr double kWider = 2.1;      // a line of 2 px beside one of 1 px shows up to twice as much
constexpr double kNothing = 0.25;   // of a line: what a place without one shows
constexpr double kAlike = 0.5;      // of a line's evidence: another as thick
constexpr double kFinestPitch = 11; // px; 12 is the finest that is looked for
constexpr double kCoarsestPitch = 115; // px
constexpr double kUsualAspect = 1.7;   // of cells that are not square
constexpr double kLookedAt = 1000;     // px of the page each way: enough lines to be sure

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

/// Makes the cells of `found` two or three times as large where only every second or third of its
/// lines is one, or that many times smaller where more lines lie between them.
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

/// Whether at its lines there is more to see than between them, both ways: not so in lines of text,
/// nor in a table whose columns are of any width.
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

} // namespace

cv::Point2d Lattice::corner(double column, double row) const {
    const cv::Vec3d at = toPage * cv::Vec3d(column, row, 1);
    return {at[0] / at[2], at[1] / at[2]};
}

Lattice Lattice::from(int column, int row) const {
    Lattice result = *this;
    result.toPage = toPage * cv::Matx33d(1, 0, column, 0, 1, row, 0, 0, 1);
    return result;
}

std::vector<Lattice> findGrids(const cv::Mat& bgr) {
    const Tiles tiles = tilesOf(edgesAlongX(bgr, kFirstGap, kFirstLongest),
                                edgesAlongYTransposed(bgr, kFirstGap, kFirstLongest));
    std::vector<char> used(tiles.tiles.size(), 0);
    std::vector<Lattice> grids;
    for (std::size_t tries = 0; tries < 2 * kMostGrids && grids.size() < kMostGrids; ++tries) {
        auto found = latticeOf(tiles, used);
        if (!found) {
            break;
        }
        for (const std::size_t i : found->tiles) {
            used[i] = 1;
        }
        // What most tiles agree upon comes first: a grid upon it is made of its parts.
        const auto isUponAnother = [&](const Lattice& one) {
            return std::ranges::any_of(grids,
                                       [&](const Lattice& other) { return overlap(one, other); });
        };
        Lattice rough =
            found->lattice.from(static_cast<int>(found->cells.x), static_cast<int>(found->cells.y));
        rough.columns = std::max(1, static_cast<int>(found->cells.width));
        rough.rows = std::max(1, static_cast<int>(found->cells.height));
        if (isUponAnother(rough)) {
            continue;
        }
        decidePitch(bgr, *found);
        const auto grid = gridAround(bgr, found->lattice, found->cells);
        if (grid && !isUponAnother(*grid) && showsLines(bgr, *grid)) {
            use(tiles, boxOf(*grid), used);
            grids.push_back(*grid);
        }
    }
    const auto cells = [](const Lattice& one) { return one.columns * one.rows; };
    std::ranges::stable_sort(grids, std::greater<>(), cells);
    return grids;
}

cv::Mat straightened(const cv::Mat& page, const Lattice& lattice, int cell, const cv::Rect& area) {
    // Pixel centres: cell corner c lies at c·cell − ½ of the new picture, and so on the page.
    const cv::Matx33d toCells(1.0 / cell, 0, area.x + 0.5 / cell, 0, 1.0 / cell,
                              area.y + 0.5 / cell, 0, 0, 1);
    cv::Mat result;
    cv::warpPerspective(
        page, result, lattice.toPage * toCells, {area.width * cell, area.height * cell},
        cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_CONSTANT, cv::Scalar::all(255));
    return result;
}

} // namespace otherskein::trace::detail
