#pragma once

#include <cstdint>
#include <numeric>
#include <utility>
#include <vector>

namespace otherskein::chart {

/// Sets that are joined two by two (union by lower name, paths halved: Tarjan & van Leeuwen 1984).
/// The name of a set is its lowest member, so the answer does not depend on the order of joining.
class Joined {
  public:
    explicit Joined(std::size_t size) : m_parent(size) {
        std::iota(m_parent.begin(), m_parent.end(), std::uint32_t{0});
    }

    std::uint32_t find(std::uint32_t one) {
        while (m_parent[one] != one) {
            m_parent[one] = m_parent[m_parent[one]];
            one = m_parent[one];
        }
        return one;
    }
    /// False when they were one set already.
    bool join(std::uint32_t one, std::uint32_t other) {
        one = find(one);
        other = find(other);
        if (one == other) {
            return false;
        }
        if (one > other) {
            std::swap(one, other);
        }
        m_parent[other] = one;
        return true;
    }

  private:
    std::vector<std::uint32_t> m_parent;
};

} // namespace otherskein::chart
