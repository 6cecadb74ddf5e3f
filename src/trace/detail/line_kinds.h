#pragma once

#include "trace/detail/edge_profiles.h"

#include <compare>
#include <set>

namespace otherskein::trace::detail {

/// A thread's lines on a page: all of one colour and width.
struct LineKind {
    cv::Vec3f colour;
    float width = 0; ///< px
};

/// The kinds of lines that lie along sides of cells; most often none or one.
[[nodiscard]] std::vector<LineKind> lineKinds(const EdgeLines& upright, const EdgeLines& level,
                                              const std::vector<cv::Vec3f>& grounds,
                                              const cv::Vec3f& ink, int cell);

/// The page's darkest ink.
[[nodiscard]] cv::Vec3f inkOf(const Sheet& sheet);

/// A line along one side of a cell.
struct EdgePiece {
    bool isUpright = false;
    int line = 0;
    int place = 0;
    int kind = 0;

    auto operator<=>(const EdgePiece&) const = default;
};

[[nodiscard]] std::set<EdgePiece> edgePieces(const EdgeLines& upright, const EdgeLines& level,
                                             const std::vector<LineKind>& kinds, int cell);

} // namespace otherskein::trace::detail
