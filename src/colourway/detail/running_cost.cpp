#include "colourway/detail/running_cost.h"

#include "colourway/detail/terms.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace otherskein::colourway {

namespace {

constexpr double kNotAllowed = std::numeric_limits<double>::infinity();

double pairsAmong(std::size_t parts) {
    return static_cast<double>(parts) * (static_cast<double>(parts) - 1) / 2;
}

} // namespace

RunningCost::RunningCost(const Problem& problem, PairCosts& pairs, Assignment assignment)
    : m_problem(problem), m_pairs(pairs), m_assignment(std::move(assignment)),
      m_isCommon(!problem.use.empty() || problem.balance > 0 || problem.sharing > 0 ||
                 problem.mostChoices < std::min(problem.parts, problem.choices)),
      m_even(1.0 / static_cast<double>(problem.even)), m_fees(problem.choices, 0),
      m_isMover(problem.parts, 0) {
    constexpr std::size_t kMovesOfKick =
        10; // or so: copying a table is cheap beside taking them back
    m_copies = 2 * problem.pairs.size() * kMovesOfKick > problem.parts * problem.parts;
    for (std::size_t c = 0; c < problem.choices; ++c) {
        m_fees[c] = (problem.use.empty() ? 0 : problem.use[c]) + problem.balance * m_even * m_even;
    }
    refresh();
}

void RunningCost::refresh() {
    m_markedTable.clear();
    m_table = m_problem.single;
    m_takers.assign(m_problem.choices, 0);
    m_shares.assign(m_problem.choices, 0);
    double pairs = 0; // each counted from both ends
    double singles = 0;
    for (std::size_t part = 0; part < m_problem.parts; ++part) {
        const std::size_t own = m_assignment[part];
        ++m_takers[own];
        m_shares[own] += m_problem.size[part];
        double* row = m_table.data() + part * m_problem.choices;
        singles += row[own];
        pairs -= row[own];
        for (const PairCosts::Beside& beside : m_pairs.beside(part)) {
            PairCosts::Beside seenByOther = beside;
            seenByOther.sign = -beside.sign;
            m_pairs.add(seenByOther, m_assignment[beside.other], row);
        }
        pairs += row[own];
    }
    m_used = m_problem.choices - static_cast<std::size_t>(std::ranges::count(m_takers, 0U));
    const CommonCost common = commonCost(m_problem, m_assignment);
    m_total = singles + pairs / 2 + common.balance + common.sharing;
    for (std::size_t c = 0; c < m_problem.choices && !m_problem.use.empty(); ++c) {
        m_total += m_takers[c] > 0 ? m_problem.use[c] : 0;
    }
}

/// What `part` adds to the common costs when it joins `choice`, as if it took none now.
double RunningCost::joining(std::size_t part, std::size_t choice) const {
    const std::size_t own = m_assignment[part];
    const double size = m_problem.size[part];
    const std::size_t takers = m_takers[choice] - (own == choice ? 1 : 0);
    const double share = m_shares[choice] - (own == choice ? size : 0);
    if (takers == 0) {
        const std::size_t used = m_used - (m_takers[own] == 1 ? 1 : 0);
        return used >= m_problem.mostChoices && choice != own ? kNotAllowed : m_fees[choice];
    }
    return m_problem.sharing * static_cast<double>(takers) + 2 * m_problem.balance * size * share;
}

double RunningCost::ofChange(std::size_t part, std::size_t choice) const {
    const std::size_t own = m_assignment[part];
    if (choice == own) {
        return 0;
    }
    const double* row = rowOf(part);
    const double rise = row[choice] - row[own];
    return m_isCommon ? rise + joining(part, choice) - joining(part, own) : rise;
}

RunningCost::Move RunningCost::bestChange(std::size_t part) const {
    const std::size_t own = m_assignment[part];
    const double* row = rowOf(part);
    const double before = row[own] + (m_isCommon ? joining(part, own) : 0);
    double least = before;
    std::size_t best = own;
    for (std::size_t c = 0; c < m_problem.choices; ++c) {
        if (row[c] >= least) {
            continue; // joining costs 0 or more
        }
        const double cost = row[c] + (m_isCommon ? joining(part, c) : 0);
        if (cost < least) {
            least = cost;
            best = c;
        }
    }
    return {least - before, best};
}

double RunningCost::ofSwap(std::size_t one, std::size_t other) {
    const std::size_t c = m_assignment[one];
    const std::size_t d = m_assignment[other];
    if (c == d) {
        return 0;
    }
    double rise = (rowOf(one)[d] - rowOf(one)[c]) + (rowOf(other)[c] - rowOf(other)[d]);
    if (m_problem.balance > 0) {
        const double more = m_problem.size[other] - m_problem.size[one];
        rise += 2 * m_problem.balance * more * (m_shares[c] - m_shares[d] + more);
    }
    if (rise == kNotAllowed) {
        return rise;
    }
    for (const PairCosts::Beside& beside : m_pairs.beside(one)) {
        if (beside.other == other) { // the table lets only one end move
            rise += m_pairs.cost(beside, d, c) + m_pairs.cost(beside, c, d) -
                    m_pairs.cost(beside, d, d) - m_pairs.cost(beside, c, c);
        }
    }
    return rise;
}

void RunningCost::place(std::size_t part, std::size_t choice) {
    const std::size_t before = m_assignment[part];
    for (const PairCosts::Beside& beside : m_pairs.beside(part)) {
        m_pairs.exchange(beside, before, choice, m_table.data() + beside.other * m_problem.choices);
    }
    join(part, choice);
    m_changes.push_back({part, before});
}

void RunningCost::join(std::size_t part, std::size_t choice) {
    const std::size_t before = m_assignment[part];
    m_assignment[part] = choice;
    m_used -= --m_takers[before] == 0 ? 1 : 0;
    m_used += m_takers[choice]++ == 0 ? 1 : 0;
    m_shares[before] -= m_problem.size[part];
    m_shares[choice] += m_problem.size[part];
}

void RunningCost::change(std::size_t part, std::size_t choice) {
    m_total += ofChange(part, choice);
    place(part, choice);
}

void RunningCost::swap(std::size_t one, std::size_t other) {
    m_total += ofSwap(one, other);
    const std::size_t kept = m_assignment[one];
    place(one, m_assignment[other]);
    place(other, kept);
}

void RunningCost::replace(std::size_t choice, std::size_t by) {
    m_total += ofReplacement(choice, by);
    const std::vector<std::size_t> movers = m_movers;
    for (const std::size_t part : movers) {
        place(part, by);
    }
}

double RunningCost::ofReplacement(std::size_t choice, std::size_t by) {
    std::vector<std::size_t> takers;
    for (std::size_t part = 0; part < m_problem.parts; ++part) {
        if (m_assignment[part] == choice) {
            takers.push_back(part);
        }
    }
    return ofReplacementByTakers(choice, by, takers);
}

double RunningCost::ofReplacementByTakers(std::size_t choice, std::size_t by,
                                          const std::vector<std::size_t>& takers) {
    m_movers.clear();
    double rise = 0;
    double moved = 0;
    for (const std::size_t part : takers) {
        if (rowOf(part)[by] < kNotAllowed) {
            m_movers.push_back(part);
            rise += rowOf(part)[by] - rowOf(part)[choice];
            moved += m_problem.size[part];
        }
    }
    if (m_movers.empty() || choice == by) {
        return kNotAllowed;
    }
    const std::size_t stay = takers.size() - m_movers.size();
    const std::size_t there = m_takers[by];
    const std::size_t used = m_used - (stay == 0 ? 1 : 0) + (there == 0 ? 1 : 0);
    if (used > m_problem.mostChoices && used > m_used) {
        return kNotAllowed;
    }
    rise += (there == 0 ? m_fees[by] : 0) - (stay == 0 ? m_fees[choice] : 0);
    rise += m_problem.sharing * (pairsAmong(stay) + pairsAmong(there + m_movers.size()) -
                                 pairsAmong(takers.size()) - pairsAmong(there));
    rise += 2 * m_problem.balance * moved * (m_shares[by] - m_shares[choice] + moved);
    return rise + ofInnerPairs(choice, by);
}

double RunningCost::ofInnerPairs(std::size_t choice, std::size_t by) {
    double rise = 0;
    for (const std::size_t part : m_movers) {
        m_isMover[part] = 1;
    }
    for (const std::size_t part : m_movers) {
        for (const PairCosts::Beside& beside : m_pairs.beside(part)) {
            if (beside.other < part && m_isMover[beside.other] != 0) {
                rise += m_pairs.cost(beside, by, by) + m_pairs.cost(beside, choice, choice) -
                        m_pairs.cost(beside, by, choice) - m_pairs.cost(beside, choice, by);
            }
        }
    }
    for (const std::size_t part : m_movers) {
        m_isMover[part] = 0;
    }
    return rise;
}

RunningCost::Move RunningCost::bestReplacement(std::size_t choice) {
    std::vector<std::size_t> takers;
    for (std::size_t part = 0; part < m_problem.parts; ++part) {
        if (m_assignment[part] == choice) {
            takers.push_back(part);
        }
    }
    Move best{kNotAllowed, choice};
    for (std::size_t by = 0; by < m_problem.choices; ++by) {
        if (const double rise = ofReplacementByTakers(choice, by, takers); rise < best.rise) {
            best = {rise, by};
        }
    }
    return best;
}

void RunningCost::mark() {
    if (m_copies && (m_markedTable.empty() || !m_changes.empty())) {
        m_markedTable = m_table;
    }
    m_changes.clear();
    m_marked = m_total;
}

void RunningCost::backToMark() {
    const std::vector<Change> changes = std::move(m_changes);
    for (std::size_t i = changes.size(); i-- > 0;) {
        if (m_copies) {
            join(changes[i].part, changes[i].before);
        } else {
            place(changes[i].part, changes[i].before);
        }
    }
    if (m_copies) {
        m_table = m_markedTable;
    }
    m_changes.clear();
    m_total = m_marked;
}

} // namespace otherskein::colourway
