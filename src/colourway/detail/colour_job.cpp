#include "colourway/detail/choices.h"
#include "colourway/detail/jobs.h"
#include "colourway/detail/pairs_kept.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace otherskein::colourway {

namespace {

constexpr double kNotForRow = std::numeric_limits<double>::infinity();

/// Parts that take one thread together.
struct Unit {
    std::vector<std::size_t> parts;
    std::optional<Choice> lock;
};

std::vector<Unit> unitsOf(const Subject& subject, const RecolourQuestion& question) {
    std::vector<Unit> units;
    for (std::size_t i = 0; i < subject.charted.size(); ++i) {
        const auto lock = question.locks.find(i);
        std::optional<Choice> locked;
        if (lock != question.locks.end()) {
            locked = inStrands(lock->second, question.strands);
        }
        const Choice& charted = subject.charted[i];
        const auto same = std::ranges::find_if(units, [&](const Unit& unit) {
            const Choice& other = subject.charted[unit.parts.front()];
            return locked == unit.lock && !charted.code().isEmpty() &&
                   charted.code() == other.code() && charted.card() == other.card();
        });
        if (same != units.end()) {
            same->parts.push_back(i);
        } else {
            units.push_back({{i}, locked});
        }
    }
    return units;
}

struct ColourJob {
    std::vector<Unit> units;
    std::vector<Choice> choices;
    Problem problem;
};

void addSingles(ColourJob& job, const Subject& subject, const RecolourQuestion& question,
                const std::vector<Target>& targets) {
    Problem& problem = job.problem;
    std::vector<Choice> charted;
    for (const Unit& unit : job.units) {
        charted.push_back(subject.charted[unit.parts.front()]);
    }
    const std::vector<double> had = offGround(charted, question);
    const std::vector<double> has = offGround(job.choices, question);
    problem.single.assign(problem.parts * problem.choices, kNotForRow);
    for (std::size_t p = 0; p < problem.parts; ++p) {
        const auto row = problem.single.begin() + static_cast<std::ptrdiff_t>(p * problem.choices);
        if (job.units[p].lock) {
            row[static_cast<std::ptrdiff_t>(placeOf(job.choices, *job.units[p].lock))] = 0;
            continue;
        }
        const double floor = std::min(question.onGround, had[p]); // what was lost may stay lost
        for (std::size_t c = 0; c < problem.choices; ++c) {
            const double miss = missOf(targets[job.units[p].parts.front()], job.choices[c].lab);
            const double lacks = std::max(0.0, floor - has[c]);
            row[static_cast<std::ptrdiff_t>(c)] =
                problem.size[p] *
                (problem.weights.fidelity * miss * miss + problem.weights.ground * lacks * lacks);
        }
    }
}

void addPairs(ColourJob& job, const Subject& subject) {
    std::vector<std::size_t> unitOf(subject.charted.size());
    std::vector<colour::Lab> labs;
    for (std::size_t u = 0; u < job.units.size(); ++u) {
        labs.push_back(subject.charted[job.units[u].parts.front()].lab);
        for (const std::size_t part : job.units[u].parts) {
            unitOf[part] = u;
        }
    }
    std::vector<chart::Neighbours> neighbours = subject.parts.neighbours;
    for (chart::Neighbours& pair : neighbours) {
        pair.one = unitOf[pair.one];
        pair.other = unitOf[pair.other];
    }
    job.problem.pairs = pairsKept(labs, neighbours);
}

ColourJob colourJob(const Subject& subject, const RecolourQuestion& question,
                    const thread::ThreadPool& pool, const std::vector<Target>& targets) {
    ColourJob job;
    job.units = unitsOf(subject, question);
    std::vector<Target> open;
    for (const Unit& unit : job.units) {
        if (!unit.lock) {
            open.push_back(targets[unit.parts.front()]);
        }
    }
    const std::size_t each = std::clamp(job::kAboutChoices / std::max<std::size_t>(1, open.size()),
                                        job::kLeastNear, job::kMostNear);
    job.choices = choicesNear(open, question, pool, each);
    for (const Unit& unit : job.units) {
        if (unit.lock) {
            placeOf(job.choices, *unit.lock);
        }
    }

    Problem& problem = job.problem;
    problem.parts = job.units.size();
    problem.choices = job.choices.size();
    const std::vector<double> shares = sharesOf(subject.parts);
    for (const Unit& unit : job.units) {
        problem.size.push_back(
            std::transform_reduce(unit.parts.begin(), unit.parts.end(), 0.0, std::plus<>{},
                                  [&](std::size_t part) { return shares[part]; }));
    }
    for (const Choice& choice : job.choices) {
        problem.labs.push_back(choice.lab);
    }
    problem.use = costsOfUse(job.choices, question, problem.weights);
    if (question.colours > 0) {
        problem.mostChoices = static_cast<std::size_t>(question.colours);
    } else if (problem.choices >= problem.parts) {
        problem.sharing = job::kOwnThread;
    }
    addSingles(job, subject, question, targets);
    addPairs(job, subject);
    return job;
}

} // namespace

std::optional<Solved> solveColours(const Subject& subject, const RecolourQuestion& question,
                                   const thread::ThreadPool& pool,
                                   const std::vector<Target>& targets, const Progress& progress) {
    const ColourJob job = colourJob(subject, question, pool, targets);
    SolverOptions options;
    options.seed = question.seed;
    options.progress = progress;
    const Solution solution = solve(job.problem, options);
    if (solution.stopped) {
        return std::nullopt;
    }
    std::vector<Choice> now(subject.charted.size());
    for (std::size_t u = 0; u < job.units.size(); ++u) {
        for (const std::size_t part : job.units[u].parts) {
            const int strands = subject.chart.key[subject.parts.parts[part].key].strands;
            now[part] = inStrands(job.choices[solution.assignment[u]], strands);
        }
    }
    return Solved{std::move(now), solution.cost};
}

} // namespace otherskein::colourway
