#include "colourway/detail/pair_costs.h"

#include "colour/difference_bound.h"

#include <algorithm>
#include <cmath>

namespace otherskein::colourway {

namespace {

/// What lightness alone proves: ΔE00 >= |ΔL| / 1.75 (difference_bound.h, proof of `reach`).
constexpr double kMostSL = 1.75;

double square(double x) {
    return x * x;
}

} // namespace

PairCosts::PairCosts(const Problem& problem)
    : m_problem(problem), m_beside(problem.parts), m_rows(problem.choices) {
    for (const colour::Lab& lab : problem.labs) {
        m_L.push_back(lab.L);
    }
    for (const PairTerm& pair : problem.pairs) {
        Beside seen{pair.other,
                    problem.weights.separation * pair.weight,
                    pair.least,
                    pair.lighterBy ? problem.weights.order * pair.orderWeight : 0,
                    std::abs(pair.lighterBy.value_or(0)),
                    pair.lighterBy.value_or(0) >= 0 ? 1.0 : -1.0};
        if (seen.least <= 0) {
            seen.separation = 0; // ΔE00 is never negative
        }
        if (seen.separation == 0 && seen.order == 0) {
            continue;
        }
        if (seen.separation > 0) {
            m_mostLeast = std::max(m_mostLeast, seen.least);
        }
        m_beside[pair.one].push_back(seen);
        seen.other = pair.one;
        seen.sign = -seen.sign;
        m_beside[pair.other].push_back(seen);
    }
}

const double* PairCosts::row(std::size_t choice) {
    std::vector<double>& row = m_rows[choice];
    if (row.empty()) {
        const colour::Lab& lab = m_problem.labs[choice];
        const colour::DifferenceBound bound(lab);
        row.assign(m_problem.choices, std::numeric_limits<double>::infinity());
        for (std::size_t other = 0; other < m_problem.choices; ++other) {
            const colour::Lab& with = m_problem.labs[other];
            if (std::abs(with.L - lab.L) <= kMostSL * m_mostLeast &&
                bound.mayBeWithin(with, m_mostLeast)) {
                row[other] = colour::deltaE00(lab, with);
            }
        }
    }
    return row.data();
}

double PairCosts::cost(const Beside& beside, std::size_t mine, std::size_t theirs) {
    double cost = 0;
    if (beside.separation > 0) {
        cost += beside.separation * square(std::max(0.0, beside.least - row(mine)[theirs]));
    }
    if (beside.order > 0) {
        const double higher = beside.sign * (m_L[mine] - m_L[theirs]);
        cost += beside.order * square(std::max(0.0, beside.step - higher));
    }
    return cost;
}

void PairCosts::add(const Beside& beside, std::size_t mine, double* row) {
    const std::size_t choices = m_L.size();
    if (beside.separation > 0) {
        const double* de00 = this->row(mine);
        for (std::size_t c = 0; c < choices; ++c) {
            row[c] += beside.separation * square(std::max(0.0, beside.least - de00[c]));
        }
    }
    if (beside.order > 0) {
        const double at = beside.step - beside.sign * m_L[mine];
        for (std::size_t c = 0; c < choices; ++c) {
            row[c] += beside.order * square(std::max(0.0, at + beside.sign * m_L[c]));
        }
    }
}

void PairCosts::exchange(const Beside& beside, std::size_t before, std::size_t mine, double* row) {
    const std::size_t choices = m_L.size();
    if (beside.separation > 0) {
        const double* was = this->row(before);
        const double* is = this->row(mine);
        for (std::size_t c = 0; c < choices; ++c) {
            row[c] += beside.separation * (square(std::max(0.0, beside.least - is[c])) -
                                           square(std::max(0.0, beside.least - was[c])));
        }
    }
    if (beside.order > 0) {
        const double was = beside.step - beside.sign * m_L[before];
        const double is = beside.step - beside.sign * m_L[mine];
        for (std::size_t c = 0; c < choices; ++c) {
            const double theirs = beside.sign * m_L[c];
            row[c] += beside.order *
                      (square(std::max(0.0, is + theirs)) - square(std::max(0.0, was + theirs)));
        }
    }
}

} // namespace otherskein::colourway
