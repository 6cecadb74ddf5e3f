#include "colourway/detail/in_chart.h"

#include "colourway/detail/pairs_kept.h"
#include "colourway/solver.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace otherskein::colourway {

std::vector<std::size_t> wantedRows(const SubstituteQuestion& question) {
    const Wanted& wanted = question.wanted;
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < question.key.size(); ++i) {
        const chart::KeyRow& row = question.key[i];
        if (!wanted.code.isEmpty() && row.code == wanted.code &&
            (row.card.isEmpty() || row.card == wanted.card)) {
            rows.push_back(i);
        }
    }
    return rows;
}

std::vector<double> bordersOfWanted(const SubstituteQuestion& question) {
    std::vector<double> borders(question.key.size(), 0);
    const std::vector<std::size_t> wanted = wantedRows(question);
    const auto isWanted = [&](std::size_t row) { return std::ranges::count(wanted, row) > 0; };
    for (const chart::Neighbours& pair : question.touching) {
        if (isWanted(pair.one) != isWanted(pair.other)) {
            borders[isWanted(pair.one) ? pair.other : pair.one] += pair.border;
        }
    }
    return borders;
}

void weighInChart(std::vector<Candidate>& candidates, const SubstituteQuestion& question) {
    const std::vector<std::size_t> wanted = wantedRows(question);
    if (question.touching.empty() || wanted.empty() || candidates.empty()) {
        return;
    }
    // The wanted thread's rows are one part, the first; every other row is a part of its own.
    std::vector<std::size_t> partOf(question.key.size(), 0);
    std::vector<colour::Lab> labs{question.wanted.lab};
    std::vector<double> stitches{0};
    for (std::size_t row = 0; row < question.key.size(); ++row) {
        if (std::ranges::count(wanted, row) > 0) {
            stitches.front() += question.key[row].stitches;
        } else {
            partOf[row] = labs.size();
            labs.push_back(question.key[row].lab);
            stitches.push_back(question.key[row].stitches);
        }
    }
    std::vector<chart::Neighbours> touching = question.touching;
    for (chart::Neighbours& pair : touching) {
        pair.one = partOf[pair.one];
        pair.other = partOf[pair.other];
    }

    Problem problem;
    problem.parts = labs.size();
    problem.labs = labs; // part i as charted is choice i; the candidates follow
    for (const Candidate& candidate : candidates) {
        problem.labs.push_back(candidate.lab);
    }
    problem.choices = problem.labs.size();
    const double all = std::max(1.0, std::accumulate(stitches.begin(), stitches.end(), 0.0));
    for (const double count : stitches) {
        problem.size.push_back(count / all);
    }
    problem.single.assign(problem.parts * problem.choices, std::numeric_limits<double>::infinity());
    for (std::size_t part = 0; part < problem.parts; ++part) {
        problem.single[part * problem.choices + part] = 0;
    }
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        problem.single[problem.parts + i] = problem.size.front() * problem.weights.fidelity *
                                            candidates[i].de00 * candidates[i].de00;
    }
    problem.pairs = pairsKept(labs, touching);

    Assignment charted(problem.parts);
    std::iota(charted.begin(), charted.end(), std::size_t{0});
    const std::vector<double> costs = costsOfPart(problem, charted, 0);
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        candidates[i].costInChart = costs[problem.parts + i];
    }
}

} // namespace otherskein::colourway
