#pragma once

#include <algorithm>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace otherskein::thread {

/// Keeps the few smallest of many. `Match` is ordered by `<` strictly (ties included) and has
/// `de00`.
template <typename Match>
class BestFew {
  public:
    explicit BestFew(std::size_t most, double limit = std::numeric_limits<double>::infinity())
        : m_most(most), m_limit(limit) {
        if (most == 0) {
            m_limit = -1;
        }
    }

    /// A difference above this cannot get in any more; one equal to it still can, by its tie order.
    [[nodiscard]] double limit() const { return m_limit; }

    void offer(Match match) {
        if (!(match.de00 <= m_limit)) {
            return;
        }
        if (m_heap.size() == m_most) {
            if (!(match < m_heap.front())) {
                return;
            }
            std::ranges::pop_heap(m_heap);
            m_heap.pop_back();
        }
        m_heap.push_back(std::move(match));
        std::ranges::push_heap(m_heap);
        if (m_heap.size() == m_most) {
            m_limit = std::min(m_limit, m_heap.front().de00);
        }
    }

    [[nodiscard]] std::size_t size() const { return m_heap.size(); }

    /// Smallest first; leaves this empty.
    [[nodiscard]] std::vector<Match> take() {
        std::ranges::sort_heap(m_heap);
        return std::exchange(m_heap, {});
    }

  private:
    std::size_t m_most;
    double m_limit;
    std::vector<Match> m_heap;
};

} // namespace otherskein::thread
