#include "colourway/detail/descent.h"

#include <algorithm>
#include <cmath>

namespace otherskein::colourway {

namespace {

/// Less than this, of the whole cost, may be rounding: moves for it could go round in circles.
constexpr double kRounding = 1e-11;

} // namespace

Descent::Descent(const Problem& problem, const std::vector<std::size_t>& free, RunningCost& now)
    : m_problem(problem), m_free(free), m_now(now),
      m_replaces(!problem.use.empty() || problem.balance > 0 ||
                 problem.mostChoices < std::min(problem.parts, problem.choices)),
      m_isFree(problem.parts, 0), m_isWaiting(problem.parts, 0), m_isToSwap(problem.parts, 0) {
    for (const std::size_t part : free) {
        m_isFree[part] = 1;
    }
}

bool Descent::isGain(double rise) const {
    return rise < -kRounding * (1 + std::abs(m_now.total()));
}

void Descent::tell(std::size_t part) {
    if (m_isFree[part] != 0 && m_isWaiting[part] == 0) {
        m_isWaiting[part] = 1;
        m_waiting.push_back(part);
    }
}

void Descent::tellNeighbours(std::size_t part) {
    for (const PairCosts::Beside& beside : m_now.beside(part)) {
        tell(beside.other);
    }
}

void Descent::tellAll() {
    for (const std::size_t part : m_free) {
        tell(part);
    }
}

void Descent::changes() {
    while (m_next < m_waiting.size()) {
        const std::size_t part = m_waiting[m_next++];
        m_isWaiting[part] = 0;
        if (m_isToSwap[part] == 0) {
            m_isToSwap[part] = 1;
            m_toSwap.push_back(part);
        }
        const RunningCost::Move move = m_now.bestChange(part);
        if (isGain(move.rise)) {
            m_now.change(part, move.choice);
            tellNeighbours(part);
        }
    }
    m_waiting.clear();
    m_next = 0;
}

bool Descent::swaps() {
    while (!m_toSwap.empty()) {
        const std::size_t part = m_toSwap.back();
        double least = 0;
        std::size_t best = part;
        for (const std::size_t other : m_free) {
            if (const double rise = m_now.ofSwap(part, other); rise < least) {
                least = rise;
                best = other;
            }
        }
        if (isGain(least)) {
            m_now.swap(part, best);
            for (const std::size_t moved : {part, best}) {
                tellNeighbours(moved);
                tell(moved);
            }
            return true;
        }
        m_toSwap.pop_back();
        m_isToSwap[part] = 0;
    }
    return false;
}

bool Descent::replacements() {
    for (std::size_t choice = 0; choice < m_problem.choices; ++choice) {
        if (!m_now.isUsed(choice)) {
            continue;
        }
        const RunningCost::Move move = m_now.bestReplacement(choice);
        if (isGain(move.rise)) {
            m_now.replace(choice, move.choice);
            tellAll();
            return true;
        }
    }
    return false;
}

void Descent::settleNear() {
    constexpr std::size_t kFewParts = 64; // beyond, the swaps of a kick cost more than they find
    if (m_free.size() <= kFewParts) {
        settle();
    } else {
        changes();
    }
}

void Descent::settle() {
    do {
        changes();
    } while (swaps());
}

void Descent::settleWhole() {
    tellAll();
    settle();
    while (m_replaces && replacements()) {
        settle();
    }
}

} // namespace otherskein::colourway
