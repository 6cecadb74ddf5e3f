#include "trace/detail/lattice.h"

#include "trace/detail/lattice_dots.h"
#include "trace/detail/lattice_edges.h"
#include "trace/detail/lattice_extent.h"
#include "trace/detail/lattice_fit.h"
#include "trace/detail/lattice_frame.h"
#include "trace/detail/lattice_grounds.h"
#include "trace/detail/lattice_lines.h"
#include "trace/detail/lattice_numbers.h"
#include "trace/detail/lattice_pitch.h"
#include "trace/detail/lattice_trials.h"
#include "trace/detail/plain_lattice.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <functional>
#include <future>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostGrids = 8;
constexpr int kCoarseStrip = 8;   // px, at which lines are looked for first
constexpr int kFineStrip = 4;     // shorter than the gaps between symbols
constexpr double kFewStrips = 18; // px of a cell, below which coarse strips blur it

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

/// Whether it has all cells of the smaller other and as large ones.
bool goesOnFrom(const Lattice& grid, const Lattice& other) {
    constexpr double kSame = 0.03;
    return std::abs(grid.pitch / other.pitch - 1) < kSame &&
           (boxOf(grid) & boxOf(other)).area() > (1 - kSame) * boxOf(other).area();
}

/// The lattice as a grid of these cells.
Lattice gridOf(const Lattice& lattice, const cv::Rect& cells) {
    Lattice grid = lattice.from(cells.x, cells.y);
    grid.columns = cells.width;
    grid.rows = cells.height;
    return grid;
}

/// Whether the page has room for it: far from what is known a projective map may lead anywhere.
bool isOnPage(const cv::Mat& bgr, const Lattice& grid) {
    constexpr double kBeyond = 0.1; // of the page, where a picture cuts a chart
    constexpr int kLeastPitch = 3;  // px
    const cv::Rect2d page(-kBeyond * bgr.cols, -kBeyond * bgr.rows, (1 + 2 * kBeyond) * bgr.cols,
                          (1 + 2 * kBeyond) * bgr.rows);
    const int most = std::max(bgr.cols, bgr.rows) / kLeastPitch;
    if (grid.columns < 1 || grid.rows < 1 || grid.columns > most || grid.rows > most) {
        return false;
    }
    const cv::Rect2d box = boxOf(grid);
    return (box & page) == box;
}

cv::Rect outward(const cv::Rect2d& cells, int more) {
    const int left = static_cast<int>(std::floor(cells.x)) - more;
    const int top = static_cast<int>(std::floor(cells.y)) - more;
    return {left, top, static_cast<int>(std::ceil(cells.x + cells.width)) + more - left,
            static_cast<int>(std::ceil(cells.y + cells.height)) + more - top};
}

// Of the sides of its cells: a grid, not words.
constexpr double kLeastLines = 0.65;
constexpr double kLeastStandOut = 0.3; // where only borders of colours show
constexpr double kSurelyStandOut = 0.4;
constexpr double kSameBothWays = 0.5;
constexpr double kLeastThrough = 16; // of twice 255
constexpr std::size_t kFewestStrong = 3;

/// The extent of the grid, and `near` settled on all of it, from `seed` outward: only so far at a
/// time as what is foretold is still exact.
std::optional<Extent> grown(const cv::Mat& bgr, const LineMaps& maps, Lattice& near,
                            cv::Rect2d seed) {
    constexpr int kRounds = 9;
    constexpr double kGrowth = 0.25; // of what is known
    std::optional<Extent> extent;
    for (int round = 0; round < kRounds; ++round) {
        const auto next = extentOf(bgr, maps, near, seed);
        if (!next) {
            break;
        }
        const bool same = extent && extent->cells == next->cells && seed == cv::Rect2d(next->cells);
        extent = next;
        if (same) {
            break;
        }
        const int more = std::max(6, static_cast<int>(kGrowth * std::max(seed.width, seed.height)));
        const cv::Rect known = extent->cells & outward(seed, more);
        near = settled(maps, near, known);
        seed = known;
    }
    return extent;
}

bool isGrid(const cv::Mat& bgr, const LineMaps& maps, const Lattice& lattice,
            const Extent& extent) {
    const auto goesThrough = [&](bool isRow) {
        return standOut(maps, lattice, extent.cells, isRow).atLines > kLeastThrough;
    };
    // One pen draws both ways: lines that all show one way only, as of staves, make no cells.
    const bool oneWayOnly =
        extent.moreLines >= kLeastLines && extent.lines < kSameBothWays * extent.moreLines;
    // Dots in rows have borders everywhere, but nothing goes through.
    return (extent.lines >= kLeastLines &&
            (extent.standOut >= kSurelyStandOut || (goesThrough(false) && goesThrough(true)))) ||
           extent.standOut >= kLeastStandOut ||
           (!oneWayOnly && repeatsThrough(maps, lattice, extent.cells)) ||
           groundsChangeAtLines(bgr, lattice, extent.cells);
}

/// A lattice may lie on symbols. Where few lines go through, be they only every tenth, it is moved
/// onto those. How strong these are at least.
LeastLines movedOntoStrong(const LineMaps& maps, Lattice& lattice, const cv::Rect& cells,
                           std::size_t fewest) {
    constexpr int kBeyond = 3; // cells, where the frame may be
    const cv::Rect area(cells.x - kBeyond, cells.y - kBeyond, cells.width + 2 * kBeyond,
                        cells.height + 2 * kBeyond);
    Lattice moved = lattice;
    LeastLines least;
    bool areAlone = false; // one pen draws both ways
    for (const bool isRow : {false, true}) {
        const auto strong = strongLinesOf(maps, lattice, area, isRow, fewest);
        if (strong) {
            const double first = isRow ? area.y : area.x;
            const double start = strong->start + first * (1 - strong->step);
            moved.toPage =
                moved.toPage * (isRow ? cv::Matx33d(1, 0, 0, 0, strong->step, start, 0, 0, 1)
                                      : cv::Matx33d(strong->step, 0, start, 0, 1, 0, 0, 0, 1));
            (isRow ? least.x : least.y) = strong->least;
            areAlone = areAlone || strong->areAlone;
        }
    }
    if (!areAlone) {
        return {};
    }
    lattice = settled(maps, moved, cells, least);
    return least;
}

/// Where symbols stand in every cell and only tenth lines are drawn, or none, these and the frame
/// tell.
std::optional<Lattice> gridOfFrame(const cv::Mat& bgr, const LineMaps& fine, const LineMaps& maps,
                                   Lattice near, const cv::Rect& cells) {
    constexpr std::size_t kOfFrame = 2;
    const LeastLines least = movedOntoStrong(maps, near, cells, kOfFrame);
    const auto frame = frameAround(bgr, fine, near, cells, true);
    if (!frame || (!hasTenthLines(fine, near, *frame) && !symbolsEndAtLines(bgr, near, *frame))) {
        return std::nullopt;
    }
    near.toPage =
        plainestMap(lineSamples(maps, near, *frame, least), near.toPage).value_or(near.toPage);
    return gridOf(near, *frame);
}

std::optional<Lattice> gridAround(const cv::Mat& bgr, const LineMaps& fine, const LineMaps& maps,
                                  const Lattice& rough, cv::Rect2d seed) {
    cv::Rect known = outward(seed, 2);
    Lattice near = settled(maps, rough, known);
    near = tried(maps, near, known, false).value_or(near);
    std::optional<Extent> extent = grown(bgr, maps, near, seed);
    if (!extent) {
        return std::nullopt;
    }
    known = extent->cells;
    if (const auto better = tried(maps, near, known, true)) {
        near = *better;
        extent = grown(bgr, maps, near, known);
    }
    if (!extent || !isOnPage(bgr, gridOf(near, extent->cells))) {
        return std::nullopt;
    }
    if (!isGrid(bgr, maps, near, *extent) || someAreEmpty(maps, near, extent->cells)) {
        return gridOfFrame(bgr, fine, maps, near, extent->cells);
    }
    // Signs that are alike from cell to cell have sides too, half a cell beside the true ones.
    if (extent->standOut < kSurelyStandOut) {
        if (const auto framed = gridOfFrame(bgr, fine, maps, near, extent->cells)) {
            return framed;
        }
    }
    const LeastLines least = movedOntoStrong(maps, near, extent->cells, kFewestStrong);
    // The plainest map foretells best where lines lie that are far from what is known.
    auto plain = plainestMap(lineSamples(maps, near, extent->cells, least), near.toPage);
    if (!plain) {
        return std::nullopt;
    }
    near.toPage = *plain;
    if (!isOnPage(bgr, gridOf(near, extent->cells))) {
        return std::nullopt;
    }
    std::optional<cv::Rect> framed = frameAround(bgr, fine, near, extent->cells);
    // What slipped must not be followed until it looks right.
    if (!framed && showsLines(fine, gridOf(near, extent->cells))) {
        const cv::Rect followed = followedOutward(bgr, maps, near, extent->cells);
        framed = frameAround(bgr, fine, near, followed)
                     .value_or(endedByLines(bgr, fine, near, followed));
    }
    const cv::Rect cells = framed.value_or(extent->cells);
    Lattice grid = gridOf(near, cells);
    if (cells != extent->cells) {
        plain = plainestMap(lineSamples(maps, grid, {0, 0, grid.columns, grid.rows}, least),
                            grid.toPage);
        grid.toPage = plain.value_or(grid.toPage);
    }
    return isOnPage(bgr, grid) ? std::optional(grid) : std::nullopt;
}

/// The same lattice with cells so many times as large.
FoundLattice coarser(FoundLattice found, int times) {
    found.lattice.toPage = found.lattice.toPage * cv::Matx33d::diag({1.0 * times, 1.0 * times, 1});
    found.lattice.pitch *= times;
    found.cells = {found.cells.x / times, found.cells.y / times, found.cells.width / times,
                   found.cells.height / times};
    return found;
}

bool isSamePitch(const FoundLattice& one, const FoundLattice& other) {
    constexpr double kSame = 0.03;
    return std::abs(one.lattice.pitch / other.lattice.pitch - 1) < kSame;
}

/// Adds the grids that the tiles lead to; `failed`: what led to none. If `isLast`, and there are no
/// grids, what failed is tried with cells twice as large.
void addGrids(const cv::Mat& bgr, const LineMaps& fine, const LineMaps& coarse, const Tiles& tiles,
              std::vector<Lattice>& grids, std::vector<FoundLattice>& failed, bool isLast) {
    std::vector<char> used(tiles.tiles.size(), 0);
    // What most tiles agree upon comes first: a grid upon it is made of its parts.
    const auto isUponAnother = [&](const Lattice& one) {
        return std::ranges::any_of(grids,
                                   [&](const Lattice& other) { return overlap(one, other); });
    };
    for (const Lattice& grid : grids) {
        use(tiles, boxOf(grid), used);
    }
    const auto all = [](const Lattice& grid) { return cv::Rect(0, 0, grid.columns, grid.rows); };
    const auto isGoodGrid = [&](const Lattice& grid) {
        return showsLines(fine, grid) || hasTenthLines(fine, grid, all(grid)) ||
               groundsChangeAtLines(bgr, grid, all(grid)) ||
               symbolsEndAtLines(bgr, grid, all(grid));
    };
    // Where much of a chart is bare, its stitched parts alone may have been taken for it; its frame
    // tells.
    const auto isWholeOfOthers = [&](const Lattice& grid) {
        return std::ranges::all_of(grids,
                                   [&](const Lattice& other) {
                                       return !overlap(grid, other) || goesOnFrom(grid, other);
                                   }) &&
               frameAround(bgr, fine, grid, all(grid)) == all(grid);
    };
    using Test = std::function<bool(const Lattice&)>;
    const auto add = [&](const FoundLattice& one, const Test& isGood) {
        const LineMaps& maps = one.lattice.pitch < kFewStrips ? fine : coarse;
        const auto grid = gridAround(bgr, fine, maps, one.lattice, one.cells);
        if (!grid || (isUponAnother(*grid) && !isWholeOfOthers(*grid)) || !isGood(*grid)) {
            return false;
        }
        std::erase_if(grids, [&](const Lattice& other) { return overlap(*grid, other); });
        use(tiles, boxOf(*grid), used); // another may be beside it on the same lines
        grids.push_back(*grid);
        return true;
    };
    const auto hasGrounds = [&](const Lattice& grid) {
        return groundsChangeAtLines(bgr, grid, all(grid));
    };
    const auto isFramedInTens = [&](const Lattice& grid) {
        return hasTenthLines(fine, grid, all(grid), false) &&
               frameAround(bgr, fine, grid, all(grid)) == all(grid);
    };
    for (std::size_t tries = 0; tries < 2 * kMostGrids && grids.size() < kMostGrids; ++tries) {
        auto found = latticeOf(tiles, used);
        if (!found) {
            break;
        }
        Lattice rough =
            found->lattice.from(static_cast<int>(found->cells.x), static_cast<int>(found->cells.y));
        rough.columns = std::max(1, static_cast<int>(found->cells.width));
        rough.rows = std::max(1, static_cast<int>(found->cells.height));
        const auto useAll = [&] {
            for (const std::size_t i : found->tiles) {
                used[i] = 1;
            }
        };
        if (isUponAnother(rough)) {
            useAll();
            continue;
        }
        FoundLattice decided = *found;
        decidePitch(fine, coarse, decided);
        if (!add(decided, isGoodGrid) &&
            (isSamePitch(decided, *found) || !add(*found, hasGrounds))) {
            failed.push_back(decided);
            useAll();
        }
        used[found->seed] = 1;
    }
    // Both sides of each sign may have been taken for lines.
    for (std::size_t i = 0; isLast && i < failed.size() && grids.empty(); ++i) {
        add(coarser(failed[i], 2), isFramedInTens);
    }
}

/// What is told without lines outvotes what was found upon it by what is printed.
void addTold(const std::optional<Lattice>& told, std::vector<Lattice>& grids) {
    if (told) {
        std::erase_if(grids, [&](const Lattice& one) { return overlap(one, *told); });
        grids.push_back(*told);
    }
}

} // namespace

cv::Point2d Lattice::corner(double column, double row) const {
    const cv::Vec3d at = toPage * cv::Vec3d(column, row, 1);
    return {at[0] / at[2], at[1] / at[2]};
}

cv::Point2d Lattice::cellSize(const cv::Rect2d& area) const {
    const double column = area.x + area.width / 2;
    const double row = area.y + area.height / 2;
    const cv::Point2d at = corner(column, row);
    return {cv::norm(corner(column + 1, row) - at), cv::norm(corner(column, row + 1) - at)};
}

Lattice Lattice::from(int column, int row) const {
    Lattice result = *this;
    result.toPage = toPage * cv::Matx33d(1, 0, column, 0, 1, row, 0, 0, 1);
    return result;
}

std::vector<Lattice> findGrids(const cv::Mat& bgr, const std::vector<Word>& words) {
    constexpr double kSmall = 0.08; // of the page
    const LineMaps coarse = lineMapsOf(bgr, kCoarseStrip);
    const LineMaps fine = lineMapsOf(bgr, kFineStrip);
    // Neither needs what is found by lines.
    auto dots = std::async(std::launch::async, [&] { return gridOfDots(bgr, fine); });
    auto numbered = std::async(std::launch::async, [&] { return gridOfNumbers(bgr, fine, words); });
    std::vector<Lattice> grids;
    std::vector<FoundLattice> failed;
    addGrids(bgr, fine, coarse, tilesOf(coarse, false), grids, failed, false);
    // The chart's own lines may be too faint; its symbols repeat all the same.
    const double page = static_cast<double>(bgr.total());
    if (std::ranges::none_of(
            grids, [&](const Lattice& one) { return boxOf(one).area() > kSmall * page; })) {
        addGrids(bgr, fine, coarse, tilesOf(fine, true), grids, failed, true);
    }
    // Dots at all crossings tell the grid exactly where few lines do.
    addTold(dots.get(), grids);
    // Numbers along a chart's edges are as far apart as its cells; where lines go through they say
    // nothing new.
    const std::optional<Lattice> byNumbers = numbered.get();
    const auto isSame = [&](const Lattice& one) { return haveSameLines(one, *byNumbers); };
    if (byNumbers && std::ranges::none_of(grids, isSame)) {
        addTold(byNumbers, grids);
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
