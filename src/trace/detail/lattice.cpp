#include "trace/detail/lattice.h"

#include "trace/detail/edges.h"
#include "trace/detail/lattice_extent.h"
#include "trace/detail/lattice_fit.h"

#include <opencv2/imgproc.hpp>

namespace otherskein::trace::detail {

namespace {

constexpr int kMostGrids = 8;
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
    for (int tries = 0; tries < 2 * kMostGrids && grids.size() < kMostGrids; ++tries) {
        const auto found = latticeOf(tiles, used);
        if (!found) {
            break;
        }
        const cv::Rect area(static_cast<int>(found->cells.x) - 4, static_cast<int>(found->cells.y) - 4,
                            static_cast<int>(found->cells.width) + 8, static_cast<int>(found->cells.height) + 8);
        const Lattice near = settled(bgr, found->lattice, area);
        if (const auto extent = extentOf(bgr, near, found->cells)) {
            Lattice grid = near.from(extent->x, extent->y);
            grid.columns = extent->width;
            grid.rows = extent->height;
            grid = settled(bgr, grid, {0, 0, grid.columns, grid.rows});
            use(tiles, boxOf(grid), used);
            grids.push_back(grid);
        }
        for (const std::size_t i : found->tiles) {
            used[i] = 1;
        }
    }
    std::ranges::stable_sort(grids, std::greater<>(), [](const Lattice& one) { return one.columns * one.rows; });
    return grids;
}

cv::Mat straightened(const cv::Mat& page, const Lattice& lattice, int cell, const cv::Rect& area) {
    // Pixel centres: cell corner c lies at c·cell − ½ of the new picture, and so on the page.
    const cv::Matx33d toCells(1.0 / cell, 0, area.x + 0.5 / cell, 0, 1.0 / cell,
                              area.y + 0.5 / cell, 0, 0, 1);
    const cv::Matx33d toPixels(1, 0, 0, 0, 1, 0, 0, 0, 1);
    cv::Mat result;
    cv::warpPerspective(page, result, toPixels * lattice.toPage * toCells,
                        {area.width * cell, area.height * cell},
                        cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_CONSTANT,
                        cv::Scalar::all(255));
    return result;
}

} // namespace otherskein::trace::detail
