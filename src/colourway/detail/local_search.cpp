#include "colourway/detail/local_search.h"

#include "colourway/detail/chance.h"
#include "colourway/detail/cover.h"
#include "colourway/detail/descent.h"

#include <algorithm>
#include <utility>

namespace otherskein::colourway {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

/// Ours, by measurement (tests/bench/solver_bench.cpp).
constexpr std::size_t kWorkOfRound = 30'000; ///< table entries that the kicks of a round touch
constexpr std::size_t kMovesOfKick = 10;     ///< roughly, there and back
constexpr std::size_t kMostKicked = 4;
constexpr std::size_t kDrawnFrom = 16; ///< of so many choices one is drawn, the cheapest is taken

class LocalSearch {
  public:
    LocalSearch(const Problem& problem, PairCosts& pairs, Assignment start, std::uint64_t seed)
        : m_problem(problem), m_free(freeParts(problem).free),
          m_now(problem, pairs, std::move(start)), m_descent(problem, m_free, m_now),
          m_chance(seed) {
        std::size_t entries = 0;
        for (const std::size_t part : m_free) {
            entries += (1 + m_now.beside(part).size()) * problem.choices;
        }
        const std::size_t perKick = std::max<std::size_t>(
            1, kMovesOfKick * entries / std::max<std::size_t>(1, m_free.size()));
        m_kicks = std::clamp<std::size_t>(kWorkOfRound * kMovesOfKick / perKick, 1,
                                          std::max<std::size_t>(4, m_free.size()));
        if (m_descent.replaces() && problem.choices > problem.mostChoices) {
            m_kicks *= 2; // which choices to use is the harder question
        }
    }

    void descend() { m_descent.settleWhole(); }

    void round() {
        for (std::size_t i = 0; i < m_kicks; ++i) {
            m_now.mark();
            const double before = m_now.total();
            kick();
            m_descent.settleNear();
            if (m_now.total() > before) {
                m_now.backToMark();
            }
        }
        constexpr int kRoundsOfDrift = 16;
        if (++m_rounds % kRoundsOfDrift == 0) {
            m_now.refresh();
        }
        m_descent.settleWhole();
    }

    [[nodiscard]] const RunningCost& now() const { return m_now; }
    [[nodiscard]] bool isOpen() const { return !m_free.empty(); }

  private:
    const Problem& m_problem;
    std::vector<std::size_t> m_free;
    RunningCost m_now;
    Descent m_descent;
    Chance m_chance;
    std::size_t m_kicks;
    int m_rounds = 0;

    std::size_t below(std::size_t end) { return static_cast<std::size_t>(m_chance.next() % end); }

    void kick() {
        if (m_descent.replaces() && !m_now.areAllUsed() && below(2) == 0 && kickChoice()) {
            return;
        }
        std::vector<std::size_t> kicked{m_free[below(m_free.size())]};
        for (std::size_t more = below(kMostKicked); more > 0; --more) {
            const auto& beside = m_now.beside(kicked[below(kicked.size())]);
            kicked.push_back(beside.empty() ? m_free[below(m_free.size())]
                                            : beside[below(beside.size())].other);
        }
        const std::size_t other = m_free[below(m_free.size())];
        if (below(3) == 0 && m_now.ofSwap(kicked[0], other) < kNever) {
            kicked.resize(1);
            kicked.push_back(other);
            m_now.swap(kicked[0], other);
        } else {
            for (const std::size_t part : kicked) {
                disturb(part);
            }
        }
        // The neighbours look first, else the kicked would only go home.
        for (const std::size_t part : kicked) {
            m_descent.tellNeighbours(part);
        }
        for (const std::size_t part : kicked) {
            m_descent.tell(part);
        }
    }

    void disturb(std::size_t part) {
        double least = kNever;
        std::size_t best = m_now.assignment()[part];
        for (std::size_t draws = 1 + m_problem.choices / kDrawnFrom; draws > 0; --draws) {
            const std::size_t choice = below(m_problem.choices);
            const double rise = m_now.ofChange(part, choice);
            if (choice != m_now.assignment()[part] && rise < least) {
                least = rise;
                best = choice;
            }
        }
        if (best != m_now.assignment()[part]) {
            m_now.change(part, best);
        }
    }

    /// Gives up one choice and opens another, as for medians: those that took the one go where it
    /// is cheapest among the used, then those that gain come to the new one.
    bool kickChoice() {
        const std::size_t closed = m_now.assignment()[m_free[below(m_free.size())]];
        for (const std::size_t part : m_free) {
            if (m_now.assignment()[part] == closed && !sendElsewhere(part)) {
                break;
            }
        }
        const std::size_t opened = choiceToOpen(closed);
        if (opened != closed) {
            callTo(opened);
        }
        m_descent.tellAll();
        return true;
    }

    bool sendElsewhere(std::size_t part) {
        const std::size_t own = m_now.assignment()[part];
        double least = kNever;
        std::size_t best = own;
        for (std::size_t c = 0; c < m_problem.choices; ++c) {
            if (c == own || !m_now.isUsed(c)) {
                continue;
            }
            if (const double rise = m_now.ofChange(part, c); rise < least) {
                least = rise;
                best = c;
            }
        }
        if (best != own) {
            m_now.change(part, best);
        }
        return best != own;
    }

    /// Of the unused choices the one that would save most, or by turns of a random few.
    std::size_t choiceToOpen(std::size_t closed) {
        const bool fromAll = below(2) == 0;
        const std::size_t draws = fromAll ? m_problem.choices : 1 + m_problem.choices / kDrawnFrom;
        double most = -kNever;
        std::size_t best = closed;
        for (std::size_t i = 0; i < draws; ++i) {
            const std::size_t c = fromAll ? i : below(m_problem.choices);
            if (c == closed || m_now.isUsed(c)) {
                continue;
            }
            double saved = m_problem.use.empty() ? 0 : -m_problem.use[c];
            for (const std::size_t part : m_free) {
                saved += std::max(0.0, m_now.apart(part, m_now.assignment()[part]) -
                                           m_now.apart(part, c));
            }
            if (saved > most) {
                most = saved;
                best = c;
            }
        }
        return best;
    }

    /// The part that gains most goes to `choice`, whatever that costs; the rest may follow.
    void callTo(std::size_t choice) {
        double least = kNever;
        std::size_t first = m_problem.parts;
        for (const std::size_t part : m_free) {
            if (const double rise = m_now.ofChange(part, choice); rise < least) {
                least = rise;
                first = part;
            }
        }
        if (first == m_problem.parts) {
            return;
        }
        m_now.change(first, choice);
        for (const std::size_t part : m_free) {
            if (m_now.ofChange(part, choice) < 0) {
                m_now.change(part, choice);
            }
        }
    }
};

} // namespace

Searched searchLocally(const Problem& problem, PairCosts& pairs, Assignment start,
                       const SolverOptions& options, double share) {
    LocalSearch search(problem, pairs, std::move(start), options.seed);
    Searched best;
    search.descend();
    best.assignment = search.now().assignment();
    double least = search.now().total();
    for (int round = 0; round < options.rounds && search.isOpen(); ++round) {
        if (options.progress && !options.progress(share * round / options.rounds)) {
            best.stopped = true;
            return best;
        }
        search.round();
        if (search.now().total() < least) {
            least = search.now().total();
            best.assignment = search.now().assignment();
        }
    }
    return best;
}

} // namespace otherskein::colourway
