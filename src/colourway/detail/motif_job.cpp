#include "colourway/detail/choices.h"
#include "colourway/detail/jobs.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace otherskein::colourway {

namespace {

constexpr double kNotForMotif = std::numeric_limits<double>::infinity();

/// Weights of this job besides CostWeights; they come down to "the floor between neighbours first".
constexpr double kNeighbours = 20;    ///< all borders together
constexpr double kNextButOne = 1;     ///< all second neighbours together
constexpr double kNextButOneAt = 0.5; ///< of the floor
constexpr double kPaletteApart = 4;   ///< all pairs of the palette together
constexpr std::size_t kNearEach = 40;

/// The palette: a part for each colour that it should have, and one for each locked choice.
Problem paletteProblem(std::vector<Choice>& choices, const std::vector<Target>& targets,
                       const std::vector<Choice>& locked, const RecolourQuestion& question) {
    std::vector<std::size_t> lockPlaces;
    for (const Choice& lock : locked) {
        lockPlaces.push_back(placeOf(choices, lock));
    }
    Problem problem;
    problem.parts = targets.size() + locked.size();
    problem.choices = choices.size();
    problem.single.assign(problem.parts * problem.choices, kNotForMotif);
    problem.size.assign(problem.parts, 1.0 / static_cast<double>(problem.parts));
    const std::vector<double> off = offGround(choices, question);
    for (std::size_t p = 0; p < problem.parts; ++p) {
        if (p >= targets.size()) {
            problem.single[p * problem.choices + lockPlaces[p - targets.size()]] = 0;
            continue;
        }
        for (std::size_t c = 0; c < problem.choices; ++c) {
            const double miss = missOf(targets[p], choices[c].lab);
            const double lacks = std::max(0.0, question.onGround - off[c]);
            problem.single[p * problem.choices + c] =
                problem.size[p] *
                (problem.weights.fidelity * miss * miss + problem.weights.ground * lacks * lacks);
        }
    }
    for (const Choice& choice : choices) {
        problem.labs.push_back(choice.lab);
    }
    const double pairs = static_cast<double>(problem.parts * (problem.parts - 1)) / 2;
    for (std::size_t one = 0; one < problem.parts; ++one) {
        for (std::size_t other = one + 1; other < problem.parts; ++other) {
            // Where the targets lie closer than the floor (one hue), the palette keeps their steps.
            double least = question.floor;
            if (other < targets.size()) {
                least = std::min(least, colour::deltaE00(targets[one].lab, targets[other].lab));
            }
            problem.pairs.push_back({one, other, kPaletteApart / pairs, least, std::nullopt, 0});
        }
    }
    problem.use = costsOfUse(choices, question, problem.weights);
    if (problem.choices >= problem.parts) {
        problem.sharing = job::kOwnThread;
    }
    return problem;
}

/// Pairs of motifs with a common neighbour that are no neighbours themselves: enough of them that
/// colours spread, few enough that the cost stays linear.
std::set<std::pair<std::size_t, std::size_t>> secondNeighbours(const Parts& parts) {
    constexpr std::size_t kMostEach = 8;
    std::vector<std::vector<std::size_t>> next(parts.parts.size());
    std::set<std::pair<std::size_t, std::size_t>> direct;
    for (const chart::Neighbours& pair : parts.neighbours) {
        next[pair.one].push_back(pair.other);
        next[pair.other].push_back(pair.one);
        direct.emplace(pair.one, pair.other);
    }
    std::set<std::pair<std::size_t, std::size_t>> found;
    for (const std::vector<std::size_t>& around : next) {
        const std::size_t most = std::min(around.size(), kMostEach);
        for (std::size_t i = 0; i < most; ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                const auto pair = std::minmax(around[i], around[j]);
                if (!direct.contains(pair)) {
                    found.emplace(pair);
                }
            }
        }
    }
    return found;
}

Problem motifProblem(std::vector<Choice>& palette, const Subject& subject,
                     const RecolourQuestion& question) {
    Problem problem;
    problem.even = palette.size();
    std::map<std::size_t, std::size_t> lockOf;
    for (const auto& [part, choice] : question.locks) {
        lockOf[part] = placeOf(palette, inStrands(choice, question.strands));
    }
    problem.parts = subject.parts.parts.size();
    problem.choices = palette.size();
    problem.size = sharesOf(subject.parts);
    for (const Choice& choice : palette) {
        problem.labs.push_back(choice.lab);
    }
    const std::vector<double> off = offGround(palette, question);
    problem.single.assign(problem.parts * problem.choices, kNotForMotif);
    for (std::size_t p = 0; p < problem.parts; ++p) {
        if (const auto lock = lockOf.find(p); lock != lockOf.end()) {
            problem.single[p * problem.choices + lock->second] = 0;
            continue;
        }
        for (std::size_t c = 0; c < problem.choices; ++c) {
            const double lacks = std::max(0.0, question.onGround - off[c]);
            problem.single[p * problem.choices + c] =
                problem.size[p] * problem.weights.ground * lacks * lacks;
        }
    }
    double borders = 0;
    for (const chart::Neighbours& pair : subject.parts.neighbours) {
        borders += pair.border + pair.facing;
    }
    for (const chart::Neighbours& pair : subject.parts.neighbours) {
        const double weight = kNeighbours * (pair.border + pair.facing) / borders;
        problem.pairs.push_back({pair.one, pair.other, weight, question.floor, std::nullopt, 0});
    }
    const auto second = secondNeighbours(subject.parts);
    for (const auto& [one, other] : second) {
        problem.pairs.push_back({one, other, kNextButOne / static_cast<double>(second.size()),
                                 kNextButOneAt * question.floor, std::nullopt, 0});
    }
    problem.balance = problem.weights.balance;
    return problem;
}

} // namespace

std::size_t coloursFor(const RecolourQuestion& question, std::size_t motifs) {
    // As many as a harbour row likes: enough for variety, few enough to buy (ours).
    constexpr double kPerRoot = 2.2;
    constexpr std::size_t kMost = 12;
    const auto suits =
        static_cast<std::size_t>(std::lround(kPerRoot * std::sqrt(static_cast<double>(motifs))));
    const std::size_t asked = question.colours > 0 ? static_cast<std::size_t>(question.colours)
                                                   : std::clamp<std::size_t>(suits, 2, kMost);
    return std::min(asked, motifs);
}

std::vector<Choice> fixedChoices(const RecolourQuestion& question, const thread::ThreadPool& pool) {
    std::vector<Choice> fixed;
    for (const auto& [part, choice] : question.locks) {
        placeOf(fixed, inStrands(choice, question.strands));
    }
    if (const auto* theme = std::get_if<FromThreads>(&question.theme)) {
        for (const auto& [card, code] : theme->wanted) {
            if (const std::size_t found = pool.find(card, code); found != thread::kNoThread) {
                placeOf(fixed,
                        {{{card, pool[found].thread, question.strands}}, pool[found].thread.lab});
            }
        }
    }
    return fixed;
}

std::optional<Solved> solveMotifs(const Subject& subject, const RecolourQuestion& question,
                                  const thread::ThreadPool& pool,
                                  const std::vector<Target>& targets, std::uint64_t variation,
                                  const Progress& progress) {
    constexpr double kPaletteShare = 0.3; // of the work, for the progress that is told
    std::vector<Choice> choices = choicesNear(targets, question, pool, kNearEach);
    const std::vector<Choice> fixed = fixedChoices(question, pool);
    SolverOptions options;
    options.seed = question.seed + variation;
    options.progress = [&](double done) { return !progress || progress(kPaletteShare * done); };
    const Problem wanted = paletteProblem(choices, targets, fixed, question);
    const Solution chosen = solve(wanted, options);
    if (chosen.stopped) {
        return std::nullopt;
    }
    std::vector<Choice> palette;
    for (const std::size_t choice : chosen.assignment) {
        placeOf(palette, choices[choice]);
    }
    options.progress = [&](double done) {
        return !progress || progress(kPaletteShare + (1 - kPaletteShare) * done);
    };
    const Problem spread = motifProblem(palette, subject, question);
    const Solution solution = solve(spread, options);
    if (solution.stopped) {
        return std::nullopt;
    }
    std::vector<Choice> now;
    for (std::size_t part = 0; part < subject.charted.size(); ++part) {
        const int strands = subject.chart.key[subject.parts.parts[part].key].strands;
        now.push_back(inStrands(palette[solution.assignment[part]], strands));
    }
    return Solved{std::move(now), solution.cost};
}

} // namespace otherskein::colourway
