#pragma once

#include "colourway/detail/pair_costs.h"

namespace otherskein::colourway {

/// The fast evaluator: an assignment whose cost is kept up to date while parts change. Held to the
/// clear `costOf` by tests.
///
/// A table holds for each part and choice its single cost and its pair costs beside the other parts
/// as they stand. So what a move would cost is read off at once, and a move that is made costs one
/// pass over the choices for each pair of its part. What all parts share (use, balance, sharing) is
/// kept as counts and shares. Since Σ (share − e)² over used choices = Σ share² − 2e + e² · used,
/// balance is a fee e² for each used choice and a price 2 · share for each bit of size that joins.
class RunningCost {
  public:
    /// `assignment` is finite but may pass `mostChoices` (then moves to new choices are infinite).
    /// `pairs` is laid out from `problem`; both must outlive this.
    RunningCost(const Problem& problem, PairCosts& pairs, Assignment assignment);

    [[nodiscard]] const Assignment& assignment() const { return m_assignment; }
    [[nodiscard]] double total() const { return m_total; }
    [[nodiscard]] const std::vector<PairCosts::Beside>& beside(std::size_t part) const {
        return m_pairs.beside(part);
    }

    /// By how much the cost would rise; infinite for what may not be.
    [[nodiscard]] double ofChange(std::size_t part, std::size_t choice) const;
    [[nodiscard]] double ofSwap(std::size_t one, std::size_t other);

    struct Move {
        double rise = 0;
        std::size_t choice = 0;
    };
    /// The cheapest choice for `part`: its own with a rise of 0 where none is cheaper.
    [[nodiscard]] Move bestChange(std::size_t part) const;
    /// The cheapest other choice for all parts together that take `choice` and may take the other.
    /// An infinite rise where there is none.
    [[nodiscard]] Move bestReplacement(std::size_t choice);
    [[nodiscard]] double ofReplacement(std::size_t choice, std::size_t by);

    void change(std::size_t part, std::size_t choice);
    void swap(std::size_t one, std::size_t other);
    /// Every part that takes `choice` and may take `by`.
    void replace(std::size_t choice, std::size_t by);
    [[nodiscard]] bool isUsed(std::size_t choice) const { return m_takers[choice] > 0; }
    [[nodiscard]] bool areAllUsed() const { return m_used == m_problem.choices; }
    /// Single and pair costs, without what all parts share.
    [[nodiscard]] double apart(std::size_t part, std::size_t choice) const {
        return rowOf(part)[choice];
    }

    /// Moves after `mark` can be taken back, all together.
    void mark();
    void backToMark();
    /// Sums anew, which sheds the rounding that many moves have left.
    void refresh();

  private:
    const Problem& m_problem;
    PairCosts& m_pairs;
    Assignment m_assignment;
    std::vector<double> m_table; ///< by part and choice
    double m_total = 0;
    // What all parts share.
    bool m_isCommon; ///< whether anything is
    double m_even;   ///< 1/even
    std::vector<double> m_fees;
    std::vector<std::size_t> m_takers;
    std::vector<double> m_shares;
    std::size_t m_used = 0;
    // Taking back.
    struct Change {
        std::size_t part;
        std::size_t before;
    };
    std::vector<Change> m_changes;
    double m_marked = 0;
    bool m_copies = false; ///< the whole table, where parts have many pairs
    std::vector<double> m_markedTable;
    std::vector<std::size_t> m_movers; ///< scratch
    std::vector<char> m_isMover;       ///< scratch, by part

    [[nodiscard]] const double* rowOf(std::size_t part) const {
        return m_table.data() + part * m_problem.choices;
    }
    [[nodiscard]] double joining(std::size_t part, std::size_t choice) const;
    void place(std::size_t part, std::size_t choice);
    void join(std::size_t part, std::size_t choice);
    /// Of all pairs among the movers: what the table counts wrongly when both ends move.
    double ofInnerPairs(std::size_t choice, std::size_t by);
    double ofReplacementByTakers(std::size_t choice, std::size_t by,
                                 const std::vector<std::size_t>& takers);
};

} // namespace otherskein::colourway
