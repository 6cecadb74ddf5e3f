#include "colourway/detail/greedy.h"

#include "colourway/detail/cover.h"
#include "colourway/solver.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <optional>

namespace otherskein::colourway {

namespace {

constexpr double kNoWay = std::numeric_limits<double>::infinity();

class Greedy {
  public:
    Greedy(const Problem& problem, PairCosts& pairs)
        : m_problem(problem), m_pairs(pairs), m_table(problem.single),
          m_assignment(problem.parts, 0), m_isSet(problem.parts, 0), m_used(problem.choices, 0),
          m_shares(problem.choices, 0), m_takers(problem.choices, 0) {}

    Assignment run() {
        FreeParts parts = freeParts(m_problem);
        for (const std::size_t part : parts.fixed) {
            set(part, cheapest(part, {}));
        }
        std::ranges::stable_sort(parts.free, std::greater<>{},
                                 [&](std::size_t part) { return m_problem.size[part]; });
        const bool isScarce = m_problem.mostChoices < std::min(m_problem.parts, m_problem.choices);
        m_keepsMost = isScarce && planFor(parts.free).has_value();
        for (std::size_t i = 0; i < parts.free.size(); ++i) {
            const std::size_t part = parts.free[i];
            const std::vector<std::size_t> rest(
                parts.free.begin() + static_cast<std::ptrdiff_t>(i) + 1, parts.free.end());
            set(part, cheapest(part, rest));
        }
        return m_assignment;
    }

  private:
    const Problem& m_problem;
    PairCosts& m_pairs;
    std::vector<double> m_table; ///< single and pair costs beside the parts that are set
    Assignment m_assignment;
    std::vector<char> m_isSet;
    std::vector<char> m_used;
    std::vector<double> m_shares;
    std::vector<std::size_t> m_takers;
    std::size_t m_usedCount = 0;
    bool m_keepsMost = false;
    std::vector<std::size_t> m_plan; ///< new choices that would do for the parts not yet set

    std::optional<std::vector<std::size_t>> planFor(const std::vector<std::size_t>& parts) {
        if (m_usedCount > m_problem.mostChoices) {
            return std::nullopt;
        }
        auto plan = coverOf(m_problem, parts, m_used, m_problem.mostChoices - m_usedCount).choices;
        if (plan) {
            m_plan = *plan;
        }
        return plan;
    }

    double joining(std::size_t part, std::size_t choice) const {
        if (m_takers[choice] == 0) {
            const double even = 1.0 / static_cast<double>(m_problem.even);
            const double uneven = m_problem.size[part] - even;
            return (m_problem.use.empty() ? 0 : m_problem.use[choice]) +
                   m_problem.balance * uneven * uneven;
        }
        const double size = m_problem.size[part];
        const double over = m_shares[choice] - 1.0 / static_cast<double>(m_problem.even);
        return m_problem.sharing * static_cast<double>(m_takers[choice]) +
               m_problem.balance * size * (size + 2 * over);
    }

    /// Whether the rest can still be covered when `choice` is taken anew.
    bool leavesEnough(std::size_t choice, const std::vector<std::size_t>& rest) {
        if (m_used[choice] != 0 || !m_keepsMost) {
            return true;
        }
        if (m_usedCount == m_problem.mostChoices) {
            return false;
        }
        const bool isPlanned = std::ranges::count(m_plan, choice) > 0;
        if (isPlanned || m_usedCount + 1 + m_plan.size() <= m_problem.mostChoices) {
            return true;
        }
        m_used[choice] = 1;
        const Cover cover =
            coverOf(m_problem, rest, m_used, m_problem.mostChoices - m_usedCount - 1);
        m_used[choice] = 0;
        if (cover.choices) {
            m_plan = *cover.choices;
        }
        return cover.choices.has_value();
    }

    std::size_t cheapest(std::size_t part, const std::vector<std::size_t>& rest) {
        const double* row = m_table.data() + part * m_problem.choices;
        std::vector<std::pair<double, std::size_t>> byCost;
        for (std::size_t c = 0; c < m_problem.choices; ++c) {
            if (row[c] < kNoWay) {
                byCost.emplace_back(row[c] + joining(part, c), c);
            }
        }
        assert(!byCost.empty());
        std::ranges::sort(byCost);
        for (const auto& [cost, choice] : byCost) {
            if (leavesEnough(choice, rest)) {
                return choice;
            }
        }
        return byCost.front().second; // nothing keeps mostChoices
    }

    void set(std::size_t part, std::size_t choice) {
        m_assignment[part] = choice;
        m_isSet[part] = 1;
        m_usedCount += m_used[choice] == 0 ? 1 : 0;
        m_used[choice] = 1;
        std::erase(m_plan, choice);
        ++m_takers[choice];
        m_shares[choice] += m_problem.size[part];
        for (const PairCosts::Beside& beside : m_pairs.beside(part)) {
            if (m_isSet[beside.other] == 0) {
                m_pairs.add(beside, choice, m_table.data() + beside.other * m_problem.choices);
            }
        }
    }
};

} // namespace

Assignment greedyStart(const Problem& problem, PairCosts& pairs) {
    return Greedy(problem, pairs).run();
}

Assignment greedyAssignment(const Problem& problem) {
    assert(problem.isConsistent());
    PairCosts pairs(problem);
    return greedyStart(problem, pairs);
}

} // namespace otherskein::colourway
