#pragma once

#include "colourway/cost.h"

namespace otherskein::colourway {

/// The pair terms of a problem laid out for speed, as each part sees them. Held to the clear
/// `costOf` by tests.
///
/// ΔE00 is worked out a row at a time, from one choice to all, when first asked for: searches meet
/// only some choices. Where a bound proves that two choices are at least as far apart as any pair
/// asks, the row holds infinity instead, which costs the same: nothing.
/// The problem must outlive it. One search at a time: rows are filled in behind `const`-less calls.
class PairCosts {
  public:
    explicit PairCosts(const Problem& problem);

    /// A pair as one of its parts sees it.
    struct Beside {
        std::size_t other;
        double separation; ///< weights included
        double least;
        double order; ///< weights included; 0 where order is free
        double step;  ///< lightness that the two should keep, never negative
        double sign;  ///< 1: this part is to be the lighter one, -1: the other
    };

    [[nodiscard]] const std::vector<Beside>& beside(std::size_t part) const {
        return m_beside[part];
    }

    /// Of a part with choice `mine` beside one with choice `theirs`.
    [[nodiscard]] double cost(const Beside& beside, std::size_t mine, std::size_t theirs);

    /// Adds to each entry of `row`, one for each choice of the other part, what it costs beside
    /// `mine`.
    void add(const Beside& beside, std::size_t mine, double* row);
    /// The same, and takes away what it cost beside `before`.
    void exchange(const Beside& beside, std::size_t before, std::size_t mine, double* row);

  private:
    const Problem& m_problem;
    std::vector<std::vector<Beside>> m_beside;
    std::vector<double> m_L;
    double m_mostLeast = 0;
    std::vector<std::vector<double>> m_rows; ///< ΔE00 by choice, or infinity; empty: not yet asked

    const double* row(std::size_t choice);
};

} // namespace otherskein::colourway
