#pragma once

#include "trace/detail/bare_cells.h"

#include <array>
#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Marks that are no cell's own: a bold line of the grid, a line along a side, the crease of a
/// fold. They run along rows or columns and go on in the next cell, whatever that is, while a
/// symbol ends at its cell's border, if it gets there at all.
class PassingMarks {
  public:
    /// `paper`: the look of bare cells. What is darker by less than `faint` is no mark.
    PassingMarks(const cv::Mat& looks, std::span<const LookGrid> grids, const Groups& groups,
                 const float* paper, float faint);

    /// The look without what is the same all along its rows or columns.
    [[nodiscard]] cv::Mat withoutRuns(const cv::Mat& look) const;
    /// Do the marks of this group's cells go on beyond them?
    [[nodiscard]] bool goOn(std::size_t group) const;
    /// Do they lie across its cells, from one side to the other, and go on at both?
    [[nodiscard]] bool crosses(std::size_t group) const;

  private:
    using Strip = std::array<float, kLookSide>; ///< darkness along a side
    struct Count {
        int beside = 0;  ///< sides along which there is one here and there
        int passing = 0; ///< sides at which one goes on
        int ending = 0;  ///< or ends
    };

    void compare(std::size_t cell, std::size_t side, std::size_t next);
    [[nodiscard]] const Strip& strip(std::size_t cell, std::size_t side) const {
        return m_strips[4 * cell + side];
    }

    const Groups& m_groups;
    const float* m_paper;
    float m_faint;
    std::vector<Strip> m_strips; ///< of each cell: right, below, left, above
    std::vector<Count> m_counts; ///< of each group
};

} // namespace otherskein::trace::detail
