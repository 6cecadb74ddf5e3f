#include "colourway/detail/branch_and_bound.h"

#include "colourway/detail/small_problem.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace otherskein::colourway {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

/// Tables larger than this take longer to build than a proof is worth: no such problem gets near.
constexpr std::size_t kMostEntries = 100'000;
constexpr std::size_t kMostSweeps = 60;
/// A node of a large problem counts as one for each so many entries that it works out.
constexpr std::size_t kEntriesOfNode = 128;

class BranchAndBound {
  public:
    BranchAndBound(SmallProblem small, std::size_t mostNodes,
                   const std::function<bool(double)>& goOn)
        : m_small(std::move(small)), m_count(m_small.parts.size()), m_mostNodes(mostNodes),
          m_goOn(goOn), m_used(m_small.used), m_slack(m_small.fee.size(), 0),
          m_hasFees(std::ranges::any_of(m_small.fee, [](double fee) { return fee > 0; })),
          m_chosen(m_count, 0) {}

    /// `known` and the answer: the option of each part.
    std::vector<std::size_t> run(std::vector<std::size_t> known) {
        m_best = std::move(known);
        m_least = costOf(m_best);
        m_small.diffuse(kMostSweeps);
        std::vector<std::size_t> open(m_count);
        for (std::size_t i = 0; i < m_count; ++i) {
            open[i] = i;
        }
        priceScarcity(open);
        visit(open, m_small.single, m_paidAtRoot, m_small.mostNew);
        return m_best;
    }

    [[nodiscard]] bool isProved() const { return !m_ranOut && !m_stopped; }
    [[nodiscard]] bool isStopped() const { return m_stopped; }

  private:
    using Singles = std::vector<std::vector<double>>;

    SmallProblem m_small;
    std::size_t m_count;
    std::size_t m_mostNodes;
    const std::function<bool(double)>& m_goOn;
    std::vector<char> m_used;
    std::vector<double> m_slack; ///< scratch, by choice
    bool m_hasFees;
    double m_scarcity = 0; ///< put on each fee
    double m_paidAtRoot = 0;
    std::vector<std::size_t> m_chosen; ///< option by part
    std::vector<std::size_t> m_best;
    double m_least = kNever;
    std::size_t m_nodes = 0;
    std::size_t m_nextWord = 0;
    bool m_ranOut = false;
    bool m_stopped = false;

    double costOf(const std::vector<std::size_t>& options) const {
        double cost = 0;
        std::vector<char> used = m_small.used;
        for (std::size_t i = 0; i < m_count; ++i) {
            cost += m_small.single[i][options[i]];
            const std::size_t choice = m_small.options[i][options[i]];
            cost += std::exchange(used[choice], 1) == 0 ? m_small.fee[choice] : 0;
            for (std::size_t j = 0; j < i; ++j) {
                if (!m_small.between(i, j).empty()) {
                    cost +=
                        m_small.between(i, j)[options[i] * m_small.options[j].size() + options[j]];
                }
            }
        }
        return cost;
    }

    /// Rounding, in the cost and in what was moved about.
    [[nodiscard]] double toBeat() const { return m_least - 1e-11 * (1 + std::abs(m_least)); }

    /// Each open part's bid; their sum bounds what the open parts cost.
    double bids(const std::vector<std::size_t>& open, const Singles& single, std::size_t mayNew,
                std::vector<double>& bid) {
        if (m_hasFees) {
            for (std::size_t c = 0; c < m_slack.size(); ++c) {
                m_slack[c] = m_used[c] != 0 ? 0 : (mayNew == 0 ? kNever : m_small.fee[c]);
            }
        }
        double sum = 0;
        for (const std::size_t i : open) {
            double least = kNever;
            for (std::size_t o = 0; o < single[i].size(); ++o) {
                const std::size_t choice = m_small.options[i][o];
                if (!m_hasFees && mayNew == 0 && m_used[choice] == 0) {
                    continue;
                }
                least = std::min(least, single[i][o] + (m_hasFees ? m_slack[choice] : 0));
            }
            for (std::size_t o = 0; o < single[i].size() && m_hasFees; ++o) {
                double& slack = m_slack[m_small.options[i][o]];
                slack = std::max(0.0, slack - std::max(0.0, least - single[i][o]));
            }
            bid[i] = least;
            sum += least;
        }
        return sum;
    }

    /// The price of scarcity that makes the bound at the root largest, of a few.
    void priceScarcity(const std::vector<std::size_t>& open) {
        if (m_small.mostNew >= m_count) {
            return;
        }
        const std::vector<double> fee = m_small.fee;
        std::vector<double> bid(m_count);
        double most = bids(open, m_small.single, m_small.mostNew, bid);
        const double scale = std::max(1e-6, std::abs(m_least));
        const bool hadFees = std::exchange(m_hasFees, true);
        for (double price = scale / 4096; price <= scale; price *= 1.3) {
            for (std::size_t c = 0; c < fee.size(); ++c) {
                m_small.fee[c] = fee[c] + price;
            }
            const double back = -price * static_cast<double>(m_small.mostNew);
            const double bound = back + bids(open, m_small.single, m_small.mostNew, bid);
            if (bound > most) {
                most = bound;
                m_scarcity = price;
                m_paidAtRoot = back;
            }
        }
        m_hasFees = hadFees || m_scarcity > 0;
        for (std::size_t c = 0; c < fee.size(); ++c) {
            m_small.fee[c] = fee[c] + m_scarcity;
        }
    }

    bool mayGoOn(std::size_t open) {
        std::size_t entries = 0;
        if (open > 1) {
            entries = (open - 1) * m_small.options.front().size();
        }
        m_nodes += 1 + entries / kEntriesOfNode;
        if (m_nodes > m_mostNodes) {
            m_ranOut = true;
        } else if (m_nodes >= m_nextWord && m_goOn) {
            constexpr std::size_t kNodesBetweenWords = 2000;
            m_nextWord = m_nodes + kNodesBetweenWords;
            m_stopped = !m_goOn(static_cast<double>(m_nodes) / static_cast<double>(m_mostNodes));
        }
        return !m_ranOut && !m_stopped;
    }

    /// Of the open parts, the one with fewest options that may still win; those options, cheapest
    /// first.
    struct Branch {
        std::size_t place = 0; ///< in `open`
        std::vector<std::pair<double, std::size_t>> options;
    };
    Branch branch(const std::vector<std::size_t>& open, const Singles& single,
                  const std::vector<double>& bid, double bound, std::size_t mayNew) const {
        Branch best;
        double bestMargin = -1;
        std::size_t fewest = std::numeric_limits<std::size_t>::max();
        for (std::size_t place = 0; place < open.size(); ++place) {
            const std::size_t i = open[place];
            std::vector<std::pair<double, std::size_t>> options;
            double margin = 0;
            for (std::size_t o = 0; o < single[i].size(); ++o) {
                const std::size_t choice = m_small.options[i][o];
                // The other bids still hold when this part pays for the choice; see the header.
                const double rise = std::max(0.0, single[i][o] - bid[i]);
                if ((m_used[choice] == 0 && mayNew == 0) || bound + rise >= toBeat()) {
                    continue;
                }
                margin += rise;
                options.emplace_back(single[i][o] + (m_used[choice] == 0 ? m_small.fee[choice] : 0),
                                     o);
            }
            if (options.size() < fewest || (options.size() == fewest && margin > bestMargin)) {
                fewest = options.size();
                bestMargin = margin;
                best = {place, std::move(options)};
            }
        }
        std::ranges::sort(best.options);
        return best;
    }

    void visit(const std::vector<std::size_t>& open, const Singles& single, double paid,
               std::size_t mayNew) {
        if (open.empty()) {
            const double cost = paid + m_scarcity * static_cast<double>(mayNew);
            if (cost < toBeat()) {
                m_least = cost;
                m_best = m_chosen;
            }
            return;
        }
        std::vector<double> bid(m_count);
        const double bound = paid + bids(open, single, mayNew, bid);
        if (bound >= toBeat() || !mayGoOn(open.size())) {
            return;
        }
        const Branch next = branch(open, single, bid, bound, mayNew);
        const std::size_t i = open[next.place];
        std::vector<std::size_t> rest = open;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(next.place));
        Singles beside = single;
        for (const auto& [cost, option] : next.options) {
            for (const std::size_t j : rest) {
                const std::vector<double>& table = m_small.between(i, j);
                if (table.empty()) {
                    continue;
                }
                const double* row = table.data() + option * single[j].size();
                for (std::size_t o = 0; o < single[j].size(); ++o) {
                    beside[j][o] = single[j][o] + row[o];
                }
            }
            m_chosen[i] = option;
            const std::size_t choice = m_small.options[i][option];
            const bool isNew = m_used[choice] == 0;
            m_used[choice] = 1;
            visit(rest, beside, paid + cost, mayNew - (isNew ? 1 : 0));
            m_used[choice] = isNew ? 0 : 1;
            if (m_ranOut || m_stopped) {
                return;
            }
        }
    }
};

} // namespace

Bounded branchAndBound(const Problem& problem, PairCosts& pairs, Assignment known,
                       std::size_t mostNodes, const std::function<bool(double)>& goOn) {
    Bounded bounded{std::move(known), false, false};
    auto small = smallProblem(problem, pairs, kMostEntries);
    if (!small || mostNodes == 0) {
        return bounded;
    }
    const std::vector<std::size_t> parts = small->parts;
    const std::vector<std::vector<std::size_t>> options = small->options;
    std::vector<std::size_t> at;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto found = std::ranges::find(options[i], bounded.assignment[parts[i]]);
        at.push_back(static_cast<std::size_t>(found - options[i].begin()));
    }
    BranchAndBound search(std::move(*small), mostNodes, goOn);
    at = search.run(std::move(at));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        bounded.assignment[parts[i]] = options[i][at[i]];
    }
    bounded.proved = search.isProved();
    bounded.stopped = search.isStopped();
    return bounded;
}

} // namespace otherskein::colourway
