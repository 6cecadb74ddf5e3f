#include "colourway/recolour.h"

#include "base/input_error.h"
#include "colourway/detail/jobs.h"
#include "colourway/detail/one_colourway.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::colourway {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(Recolour)
};

void refuse(const Subject& subject, const QString& expected, const QString& found) {
    const QString name = subject.chart.name.isEmpty() ? Texts::tr("the chart") : subject.chart.name;
    throw base::InputError({name, std::nullopt, {}, expected, found});
}

bool isPlain(const thread::Thread& thread) {
    return thread.finish != thread::Finish::Metallic && thread.finish != thread::Finish::Variegated;
}

} // namespace

std::optional<thread::ThreadPool> plainThreads(const Subject& subject,
                                               const RecolourQuestion& question,
                                               const thread::ThreadPool& pool) {
    const bool asksForMore =
        question.filter.finish || std::ranges::any_of(subject.charted, [](const Choice& choice) {
            return !std::ranges::all_of(choice.portions, isPlain,
                                        [](const Choice::Portion& one) { return one.thread; });
        });
    if (asksForMore) {
        return std::nullopt;
    }
    std::vector<thread::PooledThread> plain;
    std::ranges::copy_if(pool.threads(), std::back_inserter(plain), isPlain,
                         &thread::PooledThread::thread);
    if (plain.empty() || plain.size() == pool.size()) {
        return std::nullopt;
    }
    return thread::ThreadPool(std::move(plain));
}

void checkSubject(const Subject& subject, const RecolourQuestion& question,
                  const thread::ThreadPool& pool) {
    const std::size_t parts = subject.parts.parts.size();
    if (parts == 0) {
        refuse(subject, Texts::tr("a chart with at least one stitch"),
               Texts::tr("bare ground only"));
    }
    if (parts > job::kMostParts) {
        refuse(subject,
               Texts::tr("at most %1 motifs; ask for fewer, or recolour by colour")
                   .arg(job::kMostParts),
               QString::number(parts));
    }
    if (pool.size() == 0 && question.locks.size() < parts) {
        throw base::InputError({Texts::tr("the shade cards"),
                                std::nullopt,
                                {},
                                Texts::tr("at least one thread that may be chosen"),
                                Texts::tr("none")});
    }
}

std::optional<Colourway> oneColourway(const Subject& subject, const RecolourQuestion& question,
                                      const thread::ThreadPool& pool, std::uint64_t variation,
                                      const Progress& progress) {
    Colourway colourway;
    colourway.by = subject.parts.by;
    std::optional<Solved> solved;
    const bool asCharted = std::holds_alternative<AsCharted>(question.theme);
    if (subject.parts.by == By::Motif && !asCharted) {
        const std::size_t fixed = fixedChoices(question, pool).size();
        const std::size_t count = coloursFor(question, subject.parts.parts.size());
        Scheme scheme = schemeOf(question, count > fixed ? count - fixed : 0, variation);
        colourway.name = scheme.name;
        solved = solveMotifs(subject, question, pool, scheme.targets, variation, progress);
    } else {
        solved = solveColours(subject, question, pool, targetsOf(subject, question, variation),
                              progress);
    }
    if (!solved) {
        return std::nullopt;
    }
    colourway.now = std::move(solved->now);
    colourway.cost = solved->cost.total();
    colourway.figures = figuresOf(subject, question, colourway.now);
    return colourway;
}

std::optional<Colourway> recolour(const Subject& subject, const RecolourQuestion& question,
                                  const thread::ThreadPool& pool, const Progress& progress) {
    checkSubject(subject, question, pool);
    const auto plain = plainThreads(subject, question, pool);
    return oneColourway(subject, question, plain ? *plain : pool, 0, progress);
}

} // namespace otherskein::colourway
