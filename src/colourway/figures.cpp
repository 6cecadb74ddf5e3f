#include "colour/mixing.h"
#include "colourway/coverage.h"
#include "colourway/recolour.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace otherskein::colourway {

namespace {

/// Different choices, in order of first use.
std::vector<const Choice*> differentOnes(const std::vector<Choice>& now) {
    std::vector<const Choice*> found;
    for (const Choice& choice : now) {
        if (std::ranges::none_of(found, [&](const Choice* one) { return one->isSameAs(choice); })) {
            found.push_back(&choice);
        }
    }
    return found;
}

void countThreads(Figures& figures, const std::vector<Choice>& now) {
    std::vector<const Choice::Portion*> threads;
    for (const Choice* choice : differentOnes(now)) {
        for (const Choice::Portion& portion : choice->portions) {
            if (std::ranges::none_of(threads, [&](const Choice::Portion* one) {
                    return one->card == portion.card && one->thread.code == portion.thread.code;
                })) {
                threads.push_back(&portion);
            }
        }
    }
    figures.threads = static_cast<int>(threads.size());
    figures.threadsToBuy = static_cast<int>(std::ranges::count_if(
        threads, [](const Choice::Portion* one) { return one->thread.stash <= 0; }));
}

} // namespace

double orderKept(const std::vector<Choice>& was, const std::vector<Choice>& now) {
    // Under one step of L* nobody can say which of two is the lighter (ours).
    constexpr double kNoStep = 1;
    double all = 0;
    double kept = 0;
    for (std::size_t i = 0; i < was.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const double step = was[i].lab.L - was[j].lab.L;
            if (std::abs(step) < kNoStep) {
                continue;
            }
            all += std::abs(step);
            if (step * (now[i].lab.L - now[j].lab.L) > 0) {
                kept += std::abs(step);
            }
        }
    }
    return all > 0 ? kept / all : 1;
}

Figures figuresOf(const Subject& subject, const RecolourQuestion& question,
                  const std::vector<Choice>& now) {
    Figures figures;
    for (const chart::Neighbours& pair : subject.parts.neighbours) {
        const double apart = colour::deltaE00(now[pair.one].lab, now[pair.other].lab);
        if (!figures.leastBetweenNeighbours || apart < *figures.leastBetweenNeighbours) {
            figures.leastBetweenNeighbours = apart;
            figures.closestOne = pair.one;
            figures.closestOther = pair.other;
        }
    }
    const double covered = coverage(question.ground, question.strands);
    figures.leastOnGround = now.empty() ? 0 : std::numeric_limits<double>::infinity();
    for (const Choice* choice : differentOnes(now)) {
        const colour::Lab apparent =
            colour::apparentColour(choice->lab, question.ground.lab, covered);
        figures.leastOnGround =
            std::min(figures.leastOnGround, colour::deltaE00(apparent, question.ground.lab));
    }
    figures.orderKept = orderKept(subject.charted, now);
    countThreads(figures, now);
    return figures;
}

std::vector<LostSeparation> lostSeparations(const Subject& subject,
                                            const std::vector<Choice>& now) {
    constexpr double kKeptShare = 0.75;
    constexpr double kStillClear = 12; // ΔE00 at which two threads are told apart at once (ours)
    std::vector<LostSeparation> lost;
    for (const chart::Neighbours& pair : subject.parts.neighbours) {
        const double was =
            colour::deltaE00(subject.charted[pair.one].lab, subject.charted[pair.other].lab);
        const double is = colour::deltaE00(now[pair.one].lab, now[pair.other].lab);
        if (is < kKeptShare * was && is < kStillClear) {
            lost.push_back({pair.one, pair.other, was, is});
        }
    }
    std::ranges::sort(lost, {}, [](const LostSeparation& one) { return one.now - one.was; });
    return lost;
}

} // namespace otherskein::colourway
