#pragma once

#include "trace/detail/cell_light.h"
#include "trace/detail/likeness.h"

#include <vector>

namespace otherskein::trace::detail {

/// A look: the light of kLookSide × kLookSide places of a cell (0 is white), then two tints of
/// kLookTints × kLookTints places, weighted so that plain Euclidean distance compares looks.
inline constexpr int kLookSide = 16;
inline constexpr int kLookTints = 4;
inline constexpr int kLookSize = kLookSide * kLookSide + 2 * kLookTints * kLookTints;

/// Blue, green and red, 0 to 255, of a light (255 is white) and its two tints in a look.
[[nodiscard]] cv::Vec3f colourOfLook(float light, float blueTint, float redTint);

/// What cells look like: a row each, CV_32F. Grid lines around the cell are left out.
[[nodiscard]] cv::Mat looksOf(const Sheet& sheet);

/// Cells that look the same.
struct Groups {
    int count = 0;
    std::vector<int> of;           ///< of each look, from 0
    std::vector<float> confidence; ///< 0 to 1: how surely it is of its group
};

/// Finds groups without knowing how many: cells are told apart where the difference is beyond what
/// printing and scanning do to cells that are the same. `masked`: cells that something lies over
/// (backstitch); they take no part in finding the groups, and join one by what is left of them
/// (`visible`: as looks, 1 where seen, 0 where not; empty where `masked` is).
/// `cell`: px of a cell's side, where the looks come from.
[[nodiscard]] Groups groupsOf(const cv::Mat& looks, const Pictures& pictures, int cell,
                              const std::vector<char>& masked, const cv::Mat& visible);

} // namespace otherskein::trace::detail
