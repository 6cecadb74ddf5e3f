#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

/// What a square of the page says of the lines along one way. Places across the lines count from
/// the tile's centre.
struct TileLines {
    double score = 0;           ///< how regular: about 1 for clean lines, about 0 for none
    double pitch = 0;           ///< px
    double slope = 0;           ///< px across for one px along
    std::vector<float> profile; ///< mean edge along the slope, less its mean, by place across
};

struct Tile {
    cv::Point2d centre;
    TileLines x; ///< lines along x: their places are y
    TileLines y; ///< lines along y: their places are x

    /// Regular both ways.
    [[nodiscard]] double score() const { return std::min(x.score, y.score); }
};

/// Side of a tile and step from one to the next, px. A tile holds three cells of the coarsest grid
/// that is looked for.
inline constexpr int kTileSide = 384;
inline constexpr int kTileStep = 192;

struct Tiles {
    int across = 0;
    int down = 0;
    std::vector<Tile> tiles; ///< row by row
};

/// `alongX` and `alongYTransposed` are as edges.h gives them.
[[nodiscard]] Tiles tilesOf(const cv::Mat& alongX, const cv::Mat& alongYTransposed);

/// How far, in pitches, the lines of `profile` lie behind multiples of `pitch` from place `at`,
/// from -½ to ½, looked at through a window of `width` px around `at`. Both count from the middle
/// of the profile. `strength` (0 to 1), if wanted, is how much of the profile repeats so.
[[nodiscard]] double phaseOf(const std::vector<float>& profile, double pitch, double at,
                             double width, double* strength = nullptr);

} // namespace otherskein::trace::detail
