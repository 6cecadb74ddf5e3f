#include "colourway/substitute.h"

#include "colour/conversion.h"
#include "colour/difference_words.h"
#include "colour/grey_scale.h"
#include "colour/mixing.h"
#include "colourway/detail/in_chart.h"
#include "colourway/substitute_warnings.h"
#include "thread/nearest.h"

#include <QStringList>

#include <algorithm>
#include <functional>
#include <tuple>

namespace otherskein::colourway {

namespace {

using thread::PooledThread;
using thread::ThreadPool;

template <typename Part>
QString joined(const Candidate& candidate, Part part) {
    QStringList parts;
    for (const Candidate::Portion& portion : candidate.portions) {
        if (const QString text = part(portion.thread); !parts.contains(text)) {
            parts.push_back(text);
        }
    }
    return parts.join(QStringLiteral(" + "));
}

void judge(Candidate& candidate, const SubstituteQuestion& question) {
    const colour::Lab& wanted = question.wanted.lab;
    candidate.deEab = colour::deltaEab(wanted, candidate.lab);
    candidate.parts = colour::differenceParts(wanted, candidate.lab);
    candidate.words = colour::differenceInWords(wanted, candidate.lab);
    candidate.greyScale = colour::greyScaleStep(candidate.deEab);
    candidate.warnings = warningsFor(candidate, question);
}

Candidate ofThread(const ThreadPool& pool, const thread::Match& match, int strands) {
    Candidate candidate;
    candidate.portions = {{pool[match.index], strands}};
    candidate.lab = pool[match.index].thread.lab;
    candidate.de00 = match.de00;
    return candidate;
}

Candidate ofBlend(const ThreadPool& pool, const thread::BlendMatch& match) {
    const PooledThread& one = pool[match.one];
    const PooledThread& other = pool[match.other];
    Candidate candidate;
    candidate.portions = {{one, match.strandsOfOne}, {other, match.strandsOfOther}};
    candidate.lab = colour::labFromXyz(
        colour::mixedXyz(one.xyz, match.strandsOfOne, other.xyz, match.strandsOfOther));
    candidate.de00 = match.de00;
    return candidate;
}

/// Nearest first; ties by card, then code, thread by thread: the order of the two searches, so that
/// a tie at the limit is cut off the same way. A thread comes before its blends.
bool comesBefore(const Candidate& one, const Candidate& other) {
    if (one.de00 != other.de00) {
        return one.de00 < other.de00;
    }
    const auto byName = [](const Candidate::Portion& p, const Candidate::Portion& q) {
        return std::tie(p.thread.card, p.thread.thread.code) <
               std::tie(q.thread.card, q.thread.thread.code);
    };
    if (std::ranges::lexicographical_compare(one.portions, other.portions, byName)) {
        return true;
    }
    return !std::ranges::lexicographical_compare(other.portions, one.portions, byName) &&
           one.portions.front().strands < other.portions.front().strands;
}

bool isSame(const Candidate& one, const Candidate& other) {
    return std::ranges::equal(
        one.portions, other.portions, [](const Candidate::Portion& p, const Candidate::Portion& q) {
            return p.thread.card == q.thread.card && p.thread.thread.code == q.thread.thread.code &&
                   p.strands == q.strands;
        });
}

/// The list by ΔE00 from a pool that may hold the wanted thread.
std::vector<Candidate> nearestFirst(const SubstituteQuestion& question, const ThreadPool& pool,
                                    const thread::StopAsked& stop) {
    const std::size_t wanted = question.wanted.code.isEmpty()
                                   ? thread::kNoThread
                                   : pool.find(question.wanted.card, question.wanted.code);
    std::vector<Candidate> found;
    const auto singles =
        thread::nearestThreads(pool, question.wanted.lab, question.limit, question.weights, wanted);
    found.reserve(singles.size());
    for (const thread::Match& match : singles) {
        found.push_back(ofThread(pool, match, question.strands));
    }
    if (question.blends) {
        thread::BlendSearch search;
        search.most = std::min(question.limit, question.mostBlends);
        search.strands = question.strands;
        search.weights = question.weights;
        if (question.calmBlends) {
            search.mostApart = warning_limits::kSpeckled;
        }
        search.without = wanted;
        if (singles.size() == question.limit && !singles.empty()) {
            search.within = singles.back().de00; // a worse blend would not make the list
        }
        for (const thread::BlendMatch& match :
             thread::bestBlends(pool, question.wanted.lab, search, stop)) {
            found.push_back(ofBlend(pool, match));
        }
    }
    std::ranges::stable_sort(found, comesBefore);
    found.resize(std::min(found.size(), question.limit));
    return found;
}

ThreadPool ownedOf(const ThreadPool& pool) {
    std::vector<PooledThread> owned;
    std::ranges::copy_if(pool.threads(), std::back_inserter(owned),
                         [](const PooledThread& one) { return one.thread.stash > 0; });
    return ThreadPool(std::move(owned));
}

/// What the user owns comes first, but only where it is near enough to be of use, and never so much
/// that what the shop has is crowded out.
std::vector<Candidate> stashFirst(const SubstituteQuestion& question, const ThreadPool& pool,
                                  const thread::StopAsked& stop) {
    constexpr double kOfUse = 5; // ΔE00: from here on the words say "clearly"; ours, no source
    std::vector<Candidate> list = nearestFirst(question, ownedOf(pool), stop);
    const std::size_t room = (question.limit + 1) / 2;
    std::erase_if(list, [](const Candidate& candidate) { return candidate.de00 > kOfUse; });
    list.resize(std::min(list.size(), room));
    const std::size_t owned = list.size();
    auto blends = static_cast<std::size_t>(std::ranges::count_if(list, &Candidate::isBlend));
    for (Candidate& candidate : nearestFirst(question, pool, stop)) {
        const bool listed =
            std::any_of(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(owned),
                        [&](const Candidate& one) { return isSame(one, candidate); });
        const bool oneTooMany = candidate.isBlend() && blends >= question.mostBlends;
        if (!listed && !oneTooMany && list.size() < question.limit) {
            blends += candidate.isBlend() ? 1 : 0;
            list.push_back(std::move(candidate));
        }
    }
    return list;
}

} // namespace

QString Candidate::card() const {
    return joined(*this, [](const PooledThread& one) { return one.card; });
}

QString Candidate::code() const {
    return joined(*this, [](const PooledThread& one) { return one.thread.code; });
}

QString Candidate::name() const {
    return joined(*this, [](const PooledThread& one) { return one.thread.name; });
}

bool Candidate::isInStash() const {
    return std::ranges::all_of(
        portions, [](const Portion& portion) { return portion.thread.thread.stash > 0; });
}

std::vector<Candidate> findSubstitutes(const SubstituteQuestion& question, const ThreadPool& pool,
                                       const thread::StopAsked& stop) {
    bool stopped = false; // half an answer would look like a whole one
    const auto asked = [&] {
        stopped = stopped || (stop && stop());
        return stopped;
    };
    SubstituteQuestion wider = question;
    if (question.order == Order::InChart) {
        constexpr std::size_t kLists = 3;
        wider.limit *= kLists;
    }
    std::vector<Candidate> found = question.order == Order::StashFirst
                                       ? stashFirst(question, pool, asked)
                                       : nearestFirst(wider, pool, asked);
    if (stopped) {
        return {};
    }
    weighInChart(found, question);
    if (question.order == Order::InChart) {
        // Far ones cannot fit the chart better by much; three lists of them are enough to look at.
        std::ranges::stable_sort(found, {}, [](const Candidate& candidate) {
            return candidate.costInChart.value_or(candidate.de00);
        });
        found.resize(std::min(found.size(), question.limit));
    }
    for (Candidate& candidate : found) {
        judge(candidate, question);
    }
    return found;
}

} // namespace otherskein::colourway
