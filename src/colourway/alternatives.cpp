#include "colourway/detail/choices.h"
#include "colourway/detail/jobs.h"
#include "colourway/detail/one_colourway.h"

#include <QCoreApplication>

#include <algorithm>
#include <limits>

namespace otherskein::colourway {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(Alternatives)
};

/// ΔE00 by which two colourways must differ, stitch by stitch, to be two on a wall (ours).
constexpr double kDiffers = 3;
constexpr double kLikeDiffers = 1;
/// Variations that are tried for each colourway wanted.
constexpr std::uint64_t kTries = 3;
constexpr std::uint64_t kLikeTries = 8; // small turns often end at the same threads

/// How far two colourways lie apart: of motifs, palette from palette, since where each colour
/// stands is a small matter beside which they are; of rows, row from row. ΔE00, weighed by
/// stitches.
double apart(const Subject& subject, const std::vector<Choice>& one,
             const std::vector<Choice>& other) {
    const std::vector<double> shares = sharesOf(subject.parts);
    double sum = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        double least = colour::deltaE00(one[i].lab, other[i].lab);
        if (subject.parts.by == By::Motif) {
            for (const Choice& choice : other) {
                least = std::min(least, colour::deltaE00(one[i].lab, choice.lab));
            }
        }
        sum += shares[i] * least;
    }
    return sum;
}

/// `other` is one that none may be like, without being on the wall itself.
bool isNew(const Subject& subject, const Colourway& colourway, const std::vector<Colourway>& found,
           double differs, const Colourway* other) {
    if (other != nullptr && (apart(subject, colourway.now, other->now) < differs &&
                             apart(subject, other->now, colourway.now) < differs)) {
        return false;
    }
    return std::ranges::all_of(found, [&](const Colourway& one) {
        return apart(subject, colourway.now, one.now) >= differs &&
               apart(subject, one.now, colourway.now) >= differs;
    });
}

/// Makes variations until there are enough that differ. When that falls short, those that differ
/// less, though at all, fill up.
template <typename Make>
std::vector<Colourway> collect(const Subject& subject, std::size_t count, double differs,
                               std::uint64_t tries, const Progress& progress, const Make& make,
                               const std::function<void(const Colourway&)>& tell,
                               const Colourway* other = nullptr) {
    std::vector<Colourway> found;
    std::vector<Colourway> spare;
    const auto keep = [&](Colourway colourway) {
        if (tell) {
            tell(colourway);
        }
        found.push_back(std::move(colourway));
    };
    for (std::uint64_t variation = 0; variation < tries && found.size() < count; ++variation) {
        const auto within = [&](double done) {
            return !progress || progress((static_cast<double>(found.size()) + done) /
                                         static_cast<double>(count + 1));
        };
        std::optional<Colourway> made = make(variation, within);
        if (!within(1)) {
            return found;
        }
        if (!made) {
            continue;
        }
        if (isNew(subject, *made, found, differs, other)) {
            keep(std::move(*made));
        } else {
            spare.push_back(std::move(*made));
        }
    }
    constexpr double kAtAll = 0.25;
    for (Colourway& colourway : spare) {
        if (found.size() < count && isNew(subject, colourway, found, kAtAll, other)) {
            keep(std::move(colourway));
        }
    }
    return found;
}

/// Which threads a conversion may look among, one way after the other.
struct Source {
    QString name;
    std::vector<thread::PooledThread> threads;
    bool blends = false;
};

std::vector<Source> sourcesOf(const RecolourQuestion& question, const thread::ThreadPool& pool) {
    std::vector<Source> sources;
    const auto& all = pool.threads();
    const auto add = [&](const QString& name, const auto& passes) {
        Source source{name, {}, false};
        std::ranges::copy_if(all, std::back_inserter(source.threads), passes);
        if (!source.threads.empty() && source.threads.size() < all.size()) {
            sources.push_back(std::move(source));
        }
    };
    sources.push_back({Texts::tr("Nearest of all"), all, question.blends});
    if (!question.blends) {
        sources.push_back({Texts::tr("With blends"), all, true});
    }
    add(Texts::tr("Only what you own"),
        [](const thread::PooledThread& one) { return one.thread.stash > 0; });
    QStringList cards;
    for (const thread::PooledThread& one : all) {
        if (!cards.contains(one.card)) {
            cards.push_back(one.card);
        }
    }
    cards.sort();
    for (const QString& card : cards) {
        add(Texts::tr("All of %1").arg(card),
            [&](const thread::PooledThread& one) { return one.card == card; });
    }
    if (cards.size() > 2) {
        for (const QString& card : cards) {
            add(Texts::tr("Nothing of %1").arg(card),
                [&](const thread::PooledThread& one) { return one.card != card; });
        }
    }
    return sources;
}

std::vector<Colourway> conversions(const Subject& subject, const RecolourQuestion& question,
                                   const thread::ThreadPool& pool, std::size_t count,
                                   const Progress& progress,
                                   const std::function<void(const Colourway&)>& found) {
    const std::vector<Source> sources = sourcesOf(question, pool);
    const auto make = [&](std::uint64_t variation, const Progress& within) {
        const Source& source = sources[variation];
        RecolourQuestion asked = question;
        asked.blends = source.blends;
        const thread::ThreadPool part(source.threads);
        std::optional<Colourway> made = oneColourway(subject, asked, part, 0, within);
        if (made) {
            made->name = source.name;
        }
        return made;
    };
    constexpr double kAtAll = 0.25;
    return collect(subject, count, kAtAll, sources.size(), progress, make, found);
}

QString familyName(std::uint64_t variation) {
    const QString names[] = {Texts::tr("As asked"),
                             Texts::tr("Duller"),
                             Texts::tr("A step round"),
                             Texts::tr("A step back"),
                             Texts::tr("Stronger"),
                             Texts::tr("Duller, a step round"),
                             Texts::tr("Duller, a step back"),
                             Texts::tr("Stronger, half a step round")};
    return variation < std::size(names) ? names[variation]
                                        : Texts::tr("Another hue, %1").arg(variation - 7);
}

} // namespace

std::vector<Colourway> alternatives(const Subject& subject, const RecolourQuestion& question,
                                    const thread::ThreadPool& given, std::size_t count,
                                    const Progress& progress,
                                    const std::function<void(const Colourway&)>& found) {
    checkSubject(subject, question, given);
    const auto plain = plainThreads(subject, question, given);
    const thread::ThreadPool& pool = plain ? *plain : given;
    if (std::holds_alternative<AsCharted>(question.theme)) {
        return conversions(subject, question, pool, count, progress, found);
    }
    const auto make = [&](std::uint64_t variation, const Progress& within) {
        std::optional<Colourway> made = oneColourway(subject, question, pool, variation, within);
        if (made && std::holds_alternative<HueFamily>(question.theme) &&
            subject.parts.by == By::Colour) {
            made->name = familyName(variation);
        }
        return made;
    };
    return collect(subject, count, kDiffers, kTries * count, progress, make, found);
}

std::vector<Colourway> moreLike(const Subject& subject, const RecolourQuestion& question,
                                const thread::ThreadPool& given, const Colourway& liked,
                                std::size_t count, const Progress& progress,
                                const std::function<void(const Colourway&)>& found) {
    checkSubject(subject, question, given);
    const auto plain = plainThreads(subject, question, given);
    const thread::ThreadPool& pool = plain ? *plain : given;
    std::vector<Choice> palette;
    for (const Choice& choice : liked.now) {
        placeOf(palette, choice);
    }
    const auto make = [&](std::uint64_t step, const Progress& within) {
        const std::uint64_t variation = step + 1; // 0 would be `liked` itself
        Colourway made;
        made.name = liked.name;
        made.by = subject.parts.by;
        const bool byMotif = made.by == By::Motif;
        auto solved = byMotif ? solveMotifs(subject, question, pool,
                                            targetsLike(palette, variation), variation, within)
                              : solveColours(subject, question, pool,
                                             targetsLike(liked.now, variation), within);
        if (!solved) {
            return std::optional<Colourway>();
        }
        made.now = std::move(solved->now);
        made.cost = solved->cost.total();
        made.figures = figuresOf(subject, question, made.now);
        return std::optional(made);
    };
    return collect(subject, count, kLikeDiffers, kLikeTries * count, progress, make, found, &liked);
}

} // namespace otherskein::colourway
