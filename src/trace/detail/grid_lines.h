#pragma once

#include "trace/detail/edge_profiles.h"

#include <optional>

namespace otherskein::trace::detail {

/// The grid's own line across one whole row or column of sides: colour D over sides of colour S is
/// a − b · S, since a line covers a share of what it lies on.
struct GridLine {
    int reach = 0;
    std::vector<cv::Vec3f> a;
    std::vector<cv::Vec3f> b;

    [[nodiscard]] cv::Vec3f step(int t, const cv::Vec3f& ground) const {
        const auto i = static_cast<std::size_t>(t + reach);
        return a[i] - b[i].mul(ground);
    }
};

[[nodiscard]] GridLine gridLineOf(const std::vector<const EdgeProfile*>& edges, int reach);

/// The same line on paper, were it of one colour that hides what it lies on: of sides that are all
/// paper, a line of thin ink and one of pale ink look the same. Nothing where it is black, as it is
/// taken to be anyway.
[[nodiscard]] std::optional<GridLine> opaqueOf(const GridLine& line);

/// Of those of the sides that have paper to either side: lines may lie under coloured cells.
/// Nothing where there are too few.
[[nodiscard]] std::optional<GridLine> onPaper(const std::vector<const EdgeProfile*>& edges,
                                              int reach);

/// Sets the steps at which lines are bolder than most are; those that are not the grid's own do not
/// count.
void findBold(const std::vector<GridLine>& whole, const std::vector<char>& laidOver,
              EdgeLines& result);

/// Lines at the same steps as those that are bolder than the usual one on paper, as these are:
/// where a bold line lies over coloured cells all along, its own sides tell little of it.
[[nodiscard]] std::vector<std::optional<GridLine>>
boldLines(const std::vector<std::optional<GridLine>>& papers, const std::optional<GridLine>& usual,
          const std::vector<std::vector<const EdgeProfile*>>& byLine, int reach);

/// Whether a line is not the grid's own: darker than `common`, which its like have, but not all
/// along. Where it is not, they have what they all have, beside cells of colours that it is seen on
/// elsewhere; a grid's line that is not seen somewhere lies under coloured cells there.
[[nodiscard]] bool isLaidOver(const GridLine& line, const GridLine& common,
                              const std::vector<const EdgeProfile*>& edges);

/// What a line darker than `common` has on paper, as one of one ink; of no width where it is not.
[[nodiscard]] LineLook lookBeyond(const GridLine& line, const GridLine& common,
                                  const std::optional<GridLine>& bold);

} // namespace otherskein::trace::detail
