#include "colourway/detail/small_problem.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace otherskein::colourway {

namespace {

class Tables {
  public:
    Tables(const Problem& problem, PairCosts& pairs)
        : m_problem(problem), m_pairs(pairs), m_sorted(freeParts(problem)),
          m_smallOf(problem.parts, problem.parts), m_fixedTakers(problem.choices, 0),
          m_fixedShares(problem.choices, 0), m_fixedChoice(problem.parts, 0) {}

    std::optional<SmallProblem> build(std::size_t mostEntries) {
        m_small.parts = m_sorted.free;
        for (std::size_t i = 0; i < m_small.parts.size(); ++i) {
            m_smallOf[m_small.parts[i]] = i;
            m_small.options.push_back(optionsOf(m_small.parts[i]));
        }
        if (entries() > mostEntries) {
            return std::nullopt;
        }
        const double even = 1.0 / static_cast<double>(m_problem.even);
        m_small.fee.assign(m_problem.choices, m_problem.balance * even * even);
        m_small.used.assign(m_problem.choices, 0);
        for (const std::size_t part : m_sorted.fixed) {
            const std::size_t choice = optionsOf(part).front();
            m_fixedChoice[part] = choice;
            m_small.used[choice] = 1;
            ++m_fixedTakers[choice];
            m_fixedShares[choice] += m_problem.size[part];
        }
        std::size_t used = 0;
        for (std::size_t c = 0; c < m_problem.choices; ++c) {
            m_small.fee[c] += m_problem.use.empty() ? 0 : m_problem.use[c];
            used += m_small.used[c] != 0 ? 1 : 0;
        }
        m_small.mostNew = m_problem.mostChoices - std::min(used, m_problem.mostChoices);
        addSingles();
        addPairs();
        return std::move(m_small);
    }

  private:
    const Problem& m_problem;
    PairCosts& m_pairs;
    FreeParts m_sorted;
    std::vector<std::size_t> m_smallOf; ///< parts: not free
    std::vector<std::size_t> m_fixedTakers;
    std::vector<double> m_fixedShares;
    std::vector<std::size_t> m_fixedChoice;
    SmallProblem m_small;

    std::vector<std::size_t> optionsOf(std::size_t part) const {
        std::vector<std::size_t> options;
        for (std::size_t c = 0; c < m_problem.choices; ++c) {
            if (mayTake(m_problem, part, c)) {
                options.push_back(c);
            }
        }
        return options;
    }

    bool allMeet() const { return m_problem.sharing > 0 || m_problem.balance > 0; }

    std::size_t entries() const {
        std::size_t sum = 0;
        for (std::size_t i = 0; i < m_small.parts.size(); ++i) {
            sum += m_small.options[i].size();
            if (allMeet()) {
                for (std::size_t j = 0; j < i; ++j) {
                    sum += m_small.options[i].size() * m_small.options[j].size();
                }
                continue;
            }
            for (const PairCosts::Beside& beside : m_pairs.beside(m_small.parts[i])) {
                const std::size_t j = m_smallOf[beside.other];
                sum += j < i ? m_small.options[i].size() * m_small.options[j].size() : 0;
            }
        }
        return sum;
    }

    void addSingles() {
        for (std::size_t i = 0; i < m_small.parts.size(); ++i) {
            const std::size_t part = m_small.parts[i];
            std::vector<double> costs;
            for (const std::size_t choice : m_small.options[i]) {
                double cost = m_problem.single[part * m_problem.choices + choice];
                for (const PairCosts::Beside& beside : m_pairs.beside(part)) {
                    if (m_smallOf[beside.other] == m_problem.parts) {
                        cost += m_pairs.cost(beside, choice, m_fixedChoice[beside.other]);
                    }
                }
                cost += m_problem.sharing * static_cast<double>(m_fixedTakers[choice]) +
                        2 * m_problem.balance * m_problem.size[part] * m_fixedShares[choice];
                costs.push_back(cost);
            }
            m_small.single.push_back(std::move(costs));
        }
    }

    void addPairs() {
        const std::size_t count = m_small.parts.size();
        m_small.pair.resize(count * count);
        for (std::size_t i = 0; i < count; ++i) {
            for (const PairCosts::Beside& beside : m_pairs.beside(m_small.parts[i])) {
                const std::size_t j = m_smallOf[beside.other];
                if (j == m_problem.parts) {
                    continue;
                }
                std::vector<double>& table = m_small.between(i, j);
                for (const std::size_t mine : m_small.options[i]) {
                    for (const std::size_t theirs : m_small.options[j]) {
                        table.push_back(m_pairs.cost(beside, mine, theirs));
                    }
                }
            }
        }
        for (std::size_t i = 0; i < count && allMeet(); ++i) {
            for (std::size_t j = 0; j < count; ++j) {
                if (i != j) {
                    addMeeting(i, j);
                }
            }
        }
    }

    void addMeeting(std::size_t i, std::size_t j) {
        std::vector<double>& table = m_small.between(i, j);
        table.resize(m_small.options[i].size() * m_small.options[j].size(), 0);
        const double cost = m_problem.sharing + 2 * m_problem.balance *
                                                    m_problem.size[m_small.parts[i]] *
                                                    m_problem.size[m_small.parts[j]];
        auto entry = table.begin();
        for (const std::size_t mine : m_small.options[i]) {
            for (const std::size_t theirs : m_small.options[j]) {
                *entry++ += mine == theirs ? cost : 0;
            }
        }
    }
};

/// One step of the diffusion; only the table from `one` to `other` is kept up.
void diffusePair(std::vector<double>& table, std::vector<double>& one, std::vector<double>& other) {
    constexpr double kNever = std::numeric_limits<double>::infinity();
    std::vector<double> leastOfOne(one.size(), kNever);
    std::vector<double> leastOfOther(other.size(), kNever);
    double* entry = table.data();
    for (std::size_t c = 0; c < one.size(); ++c) {
        for (std::size_t d = 0; d < other.size(); ++d, ++entry) {
            *entry += one[c] + other[d];
            leastOfOne[c] = std::min(leastOfOne[c], *entry);
            leastOfOther[d] = std::min(leastOfOther[d], *entry);
        }
    }
    entry = table.data();
    for (std::size_t c = 0; c < one.size(); ++c) {
        one[c] = leastOfOne[c] / 2;
        for (std::size_t d = 0; d < other.size(); ++d, ++entry) {
            *entry = std::max(0.0, *entry - leastOfOne[c] / 2 - leastOfOther[d] / 2);
        }
    }
    for (std::size_t d = 0; d < other.size(); ++d) {
        other[d] = leastOfOther[d] / 2;
    }
}

double sumOfLeast(const std::vector<std::vector<double>>& single) {
    double sum = 0;
    for (const std::vector<double>& costs : single) {
        sum += *std::ranges::min_element(costs);
    }
    return sum;
}

} // namespace

void SmallProblem::diffuse(std::size_t mostSweeps) {
    constexpr double kWorthwhile = 1e-4; // of the bound, a sweep
    const std::size_t count = parts.size();
    double bound = sumOfLeast(single);
    for (std::size_t sweep = 0; sweep < mostSweeps; ++sweep) {
        for (std::size_t i = 0; i < count; ++i) {
            for (std::size_t j = i + 1; j < count; ++j) {
                if (!between(i, j).empty()) {
                    diffusePair(between(i, j), single[i], single[j]);
                }
            }
        }
        const double before = std::exchange(bound, sumOfLeast(single));
        if (bound - before <= kWorthwhile * std::abs(bound)) {
            break;
        }
    }
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j) {
            const std::vector<double>& there = between(i, j);
            std::vector<double>& back = between(j, i);
            for (std::size_t entry = 0; entry < there.size(); ++entry) {
                const std::size_t d = entry % single[j].size();
                back[d * single[i].size() + entry / single[j].size()] = there[entry];
            }
        }
    }
}

std::optional<SmallProblem> smallProblem(const Problem& problem, PairCosts& pairs,
                                         std::size_t mostEntries) {
    return Tables(problem, pairs).build(mostEntries);
}

} // namespace otherskein::colourway
