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

} // namespace

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
    return oneColourway(subject, question, pool, 0, progress);
}

} // namespace otherskein::colourway
