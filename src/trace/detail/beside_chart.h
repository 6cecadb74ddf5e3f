#pragma once

#include "trace/tracing.h"

#include <opencv2/core.hpp>

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// What pages show beside their grids, to judge by what a colour in the grid is.
class BesideChart {
  public:
    BesideChart() = default;
    BesideChart(std::span<const Page> pages, std::span<const Piece> pieces);

    /// How large patches of a colour are that stand as in a key: full of it, about as large as
    /// cells. px a side. `colour`: BGR, where paper is 255.
    [[nodiscard]] std::vector<double> patches(const cv::Vec3f& colour) const;
    /// Whether cells (row by row, one piece after the other) are of the colour that is all around
    /// their grid.
    [[nodiscard]] bool isAround(const std::vector<int>& cells) const;

  private:
    std::span<const Page> m_pages;
    std::span<const Piece> m_pieces;
};

} // namespace otherskein::trace::detail
