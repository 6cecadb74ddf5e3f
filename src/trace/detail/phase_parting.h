#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

#include <map>

namespace otherskein::trace::detail {

/// How far the place on the page's pixels tells two groups apart: 0 when it says nothing, 1 when
/// each cell's neighbour in phase is always of its own group. A renderer that draws at whole pixels
/// makes a few pictures of one symbol, each at phases of its own; two symbols share all phases.
[[nodiscard]] double phaseParting(const Group& one, const Group& other,
                                  const std::vector<cv::Point2f>& phases);

/// Whether it is the page's pixels alone that make two groups of one symbol. Cells that lie alike
/// on the pixels are then of one group though they be far apart, and cells between them, which lie
/// otherwise, are of the other. Designs do the opposite: the nearer, the more alike.
class PhaseMeetings {
  public:
    explicit PhaseMeetings(const Pictures& pictures);

    /// Of cells of two groups.
    struct Count {
        /// How many lie alike with one of the other group, each cell by the share of those that it
        /// lies alike with.
        double found = 0;
        /// So many would, if such pairs differed as often as those that lie otherwise and no
        /// farther apart along columns and rows.
        double expected = 0;

        /// Too few for two symbols.
        [[nodiscard]] bool isByPhase() const;
        /// The same, or too little to go by.
        [[nodiscard]] bool mayBeByPhase() const;
        /// As many as two symbols have.
        [[nodiscard]] bool isByDesign() const;
    };
    [[nodiscard]] Count countOf(const Group& one, const Group& other) const;

  private:
    const Pictures& m_pictures;
    std::map<int, std::vector<int>> m_rows; ///< of cells: rows of the pictures by column, or -1
};

} // namespace otherskein::trace::detail
