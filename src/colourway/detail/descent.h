#pragma once

#include "colourway/detail/running_cost.h"

namespace otherskein::colourway {

/// Lowers a running cost until no move that it looks at lowers it further. Parts that are waiting
/// are looked at in the order in which they were told; a part that moves tells its neighbours.
class Descent {
  public:
    Descent(const Problem& problem, const std::vector<std::size_t>& free, RunningCost& now);

    /// Has `part` looked at again; nothing where it waits already or is not free.
    void tell(std::size_t part);
    void tellNeighbours(std::size_t part);
    void tellAll();

    /// Changes of one part, and swaps of the parts that were told with any other.
    void settle();
    /// After a kick: without swaps where there are many parts; those wait for the next `settle`.
    void settleNear();
    /// Besides what `settle` does, replacing choices wholesale, where choices have a price or are
    /// scarce.
    void settleWhole();

    [[nodiscard]] bool replaces() const { return m_replaces; }

  private:
    const Problem& m_problem;
    const std::vector<std::size_t>& m_free;
    RunningCost& m_now;
    bool m_replaces;
    std::vector<char> m_isFree;
    std::vector<std::size_t> m_waiting; ///< a queue, from m_next on
    std::size_t m_next = 0;
    std::vector<char> m_isWaiting;
    std::vector<std::size_t> m_toSwap;
    std::vector<char> m_isToSwap;

    void changes();
    bool swaps();
    bool replacements();
    [[nodiscard]] bool isGain(double rise) const;
};

} // namespace otherskein::colourway
