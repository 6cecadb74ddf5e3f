#pragma once

#include "trace/detail/edge_profiles.h"

#include <vector>

namespace otherskein::trace::detail {

inline constexpr float kSlimmestLine = 0.11F; ///< of a cell: a grid has lines of its own
/// Px that the middle of a line along a side may lie off it.
[[nodiscard]] float mostOffSide(int cell);

/// A thread's lines on a page: all of one colour and width.
struct LineKind {
    cv::Vec3f colour;
    float width = 0;       ///< px
    bool isProven = false; ///< lines of the kind were found that nothing else could be
};

/// What may be a piece of a line.
struct LineSeed {
    cv::Vec3f colour;
    float width = 0; ///< px
};

/// The colours and widths that at least `least` seeds share, strong and broad enough for lines.
[[nodiscard]] std::vector<LineKind> kindsOf(std::vector<LineSeed> seeds, std::size_t least,
                                            const cv::Vec3f& ink, int cell);

/// The kinds of lines that lie along sides of cells; most often none or one.
[[nodiscard]] std::vector<LineKind> lineKinds(const Sheet& sheet, const EdgeLines& upright,
                                              const EdgeLines& level,
                                              const std::vector<cv::Vec3f>& grounds,
                                              const cv::Vec3f& ink);

/// The page's darkest ink.
[[nodiscard]] cv::Vec3f inkOf(const Sheet& sheet);

/// Lines that run from border to border as those of a kind look: no other line of the grid's own is
/// so, but for one in the grid's middle or some at even steps, as those `across` may have.
[[nodiscard]] std::vector<int> linesOfKinds(const EdgeLines& lines, const EdgeLines& across,
                                            const std::vector<LineKind>& kinds);

} // namespace otherskein::trace::detail
