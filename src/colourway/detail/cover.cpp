#include "colourway/detail/cover.h"

#include <algorithm>

namespace otherskein::colourway {

namespace {

constexpr std::size_t kMostSteps = 20'000;

class CoverSearch {
  public:
    explicit CoverSearch(const Problem& problem) : m_problem(problem) {}

    /// The widest choice each time, until all parts are covered.
    std::vector<std::size_t> greedily(std::vector<std::size_t> parts) const {
        std::vector<std::size_t> taken;
        while (!parts.empty()) {
            std::size_t best = 0;
            std::size_t mostCovered = 0;
            double leastCost = 0;
            for (std::size_t c = 0; c < m_problem.choices; ++c) {
                std::size_t covered = 0;
                double cost = 0;
                for (const std::size_t part : parts) {
                    if (mayTake(m_problem, part, c)) {
                        ++covered;
                        cost += m_problem.single[part * m_problem.choices + c];
                    }
                }
                if (covered > mostCovered || (covered == mostCovered && cost < leastCost)) {
                    best = c;
                    mostCovered = covered;
                    leastCost = cost;
                }
            }
            taken.push_back(best);
            dropCovered(parts, best);
        }
        return taken;
    }

    /// Every choice of the part that has fewest, in turn.
    bool exhaustively(const std::vector<std::size_t>& parts, std::size_t most,
                      std::vector<std::size_t>& taken) {
        if (parts.empty()) {
            return true;
        }
        if (most == 0 || ++m_steps > kMostSteps) {
            return false;
        }
        const std::size_t hardest = *std::ranges::min_element(parts, {}, [&](std::size_t part) {
            std::size_t open = 0;
            for (std::size_t c = 0; c < m_problem.choices; ++c) {
                open += mayTake(m_problem, part, c) ? 1 : 0;
            }
            return open;
        });
        for (std::size_t c = 0; c < m_problem.choices; ++c) {
            if (mayTake(m_problem, hardest, c)) {
                std::vector<std::size_t> rest = parts;
                dropCovered(rest, c);
                taken.push_back(c);
                if (exhaustively(rest, most - 1, taken)) {
                    return true;
                }
                taken.pop_back();
            }
        }
        return false;
    }

    bool ranOut() const { return m_steps > kMostSteps; }

  private:
    const Problem& m_problem;
    std::size_t m_steps = 0;

    void dropCovered(std::vector<std::size_t>& parts, std::size_t choice) const {
        std::erase_if(parts, [&](std::size_t part) { return mayTake(m_problem, part, choice); });
    }
};

} // namespace

Cover coverOf(const Problem& problem, std::vector<std::size_t> parts,
              const std::vector<char>& given, std::size_t most) {
    std::erase_if(parts, [&](std::size_t part) {
        for (std::size_t c = 0; c < problem.choices; ++c) {
            if (given[c] != 0 && mayTake(problem, part, c)) {
                return true;
            }
        }
        return false;
    });
    if (parts.empty()) {
        return {std::vector<std::size_t>{}, true};
    }
    if (most == 0) {
        return {std::nullopt, true};
    }
    CoverSearch search(problem);
    std::vector<std::size_t> taken = search.greedily(parts);
    if (taken.size() <= most) {
        return {taken, true};
    }
    taken.clear();
    if (search.exhaustively(parts, most, taken)) {
        return {taken, true};
    }
    return {std::nullopt, !search.ranOut()};
}

FreeParts freeParts(const Problem& problem) {
    FreeParts parts;
    for (std::size_t part = 0; part < problem.parts; ++part) {
        std::size_t open = 0;
        for (std::size_t c = 0; c < problem.choices && open < 2; ++c) {
            open += mayTake(problem, part, c) ? 1 : 0;
        }
        (open < 2 ? parts.fixed : parts.free).push_back(part);
    }
    return parts;
}

} // namespace otherskein::colourway
