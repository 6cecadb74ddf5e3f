#pragma once

#include "trace/detail/line_map.h"

#include <opencv2/core.hpp>

#include <vector>

namespace otherskein::trace::detail {

/// What a square of the page says of the lines along one way. Places across the lines count from
/// the tile's centre.
struct TileLines {
    double score = 0;               ///< how regular: about 1 for clean lines, about 0 for none
    double pitch = 0;               ///< px; perhaps the half or some times the lines' true one
    double slope = 0;               ///< px across for one px along
    std::vector<float> profile;     ///< mean along the slope, less its mean, by place across
    std::vector<float> correlation; ///< of the profile with itself, by shift; empty: nothing there
};

struct Tile {
    cv::Point2d centre;
    TileLines x; ///< lines along x: their places are y
    TileLines y; ///< lines along y: their places are x
};

/// Side of a tile and step from one to the next, px. A tile holds three cells of the coarsest grid
/// that is looked for.
inline constexpr int kTileSide = 384;
inline constexpr int kTileStep = 192;

inline constexpr double kLeastPitch = 9; ///< px
inline constexpr double kMostPitch = 115;

struct Tiles {
    int across = 0;
    int down = 0;
    std::vector<Tile> tiles; ///< row by row
};

/// `countsSymbols`: what repeats need not go through, as lines do.
[[nodiscard]] Tiles tilesOf(const LineMaps& maps, bool countsSymbols);

/// How well `pitch` fits: high where shifts by whole pitches, up to `mostTeeth`, fit and those by
/// half a pitch less do not. 0 where there is nothing.
inline constexpr int kFewTeeth = 5; // to find a pitch that is not well known yet
[[nodiscard]] double combScore(const std::vector<float>& correlation, double pitch,
                               int mostTeeth = kFewTeeth);

/// The pitch within `share` of `pitch` that fits best over all of the tile, and how well.
struct NearPitch {
    double pitch = 0;
    double score = 0;
};
[[nodiscard]] NearPitch nearPitch(const TileLines& lines, double pitch, double share);

/// How far, in pitches, the lines of `profile` lie behind multiples of `pitch` from place `at`,
/// from -½ to ½, looked at through a window of `width` px around `at`. Both count from the middle
/// of the profile. `strength` (0 to 1), if wanted, is how much of the profile repeats so.
[[nodiscard]] double phaseOf(const std::vector<float>& profile, double pitch, double at,
                             double width, double* strength = nullptr);

} // namespace otherskein::trace::detail
