#include "colourway/substitute_warnings.h"

#include "colourway/detail/in_chart.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace otherskein::colourway {

namespace {

using thread::Finish;
using thread::Stock;
using thread::Thread;

struct WarningTexts {
    Q_DECLARE_TR_FUNCTIONS(Substitute)
};

bool isPlain(Finish finish) {
    return finish != Finish::Metallic && finish != Finish::Variegated;
}

bool oneRamp(const colour::Lab& one, const colour::Lab& other) {
    const bool neutralOne = colour::chroma(one) < warning_limits::kNeutralChroma;
    const bool neutralOther = colour::chroma(other) < warning_limits::kNeutralChroma;
    if (neutralOne || neutralOther) {
        return neutralOne && neutralOther;
    }
    const double turn =
        std::abs(std::remainder(colour::hueDegrees(one) - colour::hueDegrees(other), 360.0));
    return turn <= warning_limits::kRampHueDegrees;
}

/// Whether the candidate comes too close to a row, and how to say so. Rows that touch are compared
/// at once; rows that do not are only mixed up where they are all but alike.
std::optional<Warning> closeTo(const chart::KeyRow& row, const Candidate& candidate,
                               const SubstituteQuestion& question, double border) {
    const bool pictureKnown = !question.touching.empty();
    const double limit =
        pictureKnown && border <= 0 ? warning_limits::kMixedUp : warning_limits::kSeparation;
    const double now = colour::deltaE00(candidate.lab, row.lab, question.weights);
    const double before = colour::deltaE00(question.wanted.lab, row.lab, question.weights);
    if (now >= limit || now >= before) {
        return std::nullopt;
    }
    const QString text =
        border > 0 ? WarningTexts::tr("Close to %1 (%2-stitch border): ΔE %3, was %4")
                         .arg(row.code)
                         .arg(std::lround(border))
                   : WarningTexts::tr("Close to %1 in the chart: ΔE %2, was %3").arg(row.code);
    return Warning{WarningKind::CloseInKey, text.arg(now, 0, 'f', 1).arg(before, 0, 'f', 1)};
}

void warnOfKey(const Candidate& candidate, const SubstituteQuestion& question,
               std::vector<Warning>& warnings) {
    const std::vector<std::size_t> wanted = wantedRows(question);
    const std::vector<double> borders = bordersOfWanted(question);
    std::vector<std::size_t> rows(question.key.size());
    std::iota(rows.begin(), rows.end(), std::size_t{0});
    // What it touches longest is said first.
    std::ranges::stable_sort(rows, std::greater<>{}, [&](std::size_t row) { return borders[row]; });
    for (const std::size_t index : rows) {
        const chart::KeyRow& row = question.key[index];
        if (std::ranges::count(wanted, index) > 0) {
            continue;
        }
        const auto& first = candidate.portions.front().thread;
        if (!candidate.isBlend() && row.code == first.thread.code &&
            (row.card.isEmpty() || row.card == first.card)) {
            warnings.push_back({WarningKind::AlreadyInKey,
                                WarningTexts::tr("Already in the chart as %1").arg(row.code)});
            continue;
        }
        if (auto warning = closeTo(row, candidate, question, borders[index])) {
            warnings.push_back(std::move(*warning));
        }
        const double orderBefore = question.wanted.lab.L - row.lab.L;
        const double orderNow = candidate.lab.L - row.lab.L;
        if (oneRamp(question.wanted.lab, row.lab) && orderBefore * orderNow < 0) {
            warnings.push_back(
                {WarningKind::OutOfOrder,
                 orderNow > 0 ? WarningTexts::tr("Out of order: lighter than %1, should be darker")
                                    .arg(row.code)
                              : WarningTexts::tr("Out of order: darker than %1, should be lighter")
                                    .arg(row.code)});
        }
    }
}

void warnOfFinish(const Candidate& candidate, const std::optional<Thread>& wanted,
                  std::vector<Warning>& warnings) {
    for (const auto& portion : candidate.portions) {
        const Thread& thread = portion.thread.thread;
        const bool wantedPlain = !wanted || isPlain(wanted->finish);
        if (thread.finish == Finish::Metallic && wantedPlain) {
            warnings.push_back({WarningKind::Metallic,
                                WarningTexts::tr("%1 is metallic: its colour shifts with the light")
                                    .arg(thread.code)});
        } else if (thread.finish == Finish::Variegated && wantedPlain) {
            warnings.push_back(
                {WarningKind::Variegated,
                 WarningTexts::tr("%1 is variegated: only its mean is compared").arg(thread.code)});
        } else if (wanted && wanted->finish != Finish::Unstated &&
                   thread.finish != wanted->finish && thread.finish != Finish::Unstated) {
            warnings.push_back(
                {WarningKind::OtherFinish, WarningTexts::tr("%1 is %2, not %3")
                                               .arg(thread.code, thread::wordOf(thread.finish),
                                                    thread::wordOf(wanted->finish))});
        }
    }
}

void warnOfMake(const Candidate& candidate, const Thread& wanted, std::vector<Warning>& warnings) {
    for (const auto& portion : candidate.portions) {
        const Thread& thread = portion.thread.thread;
        if (!wanted.fibre.isEmpty() && !thread.fibre.isEmpty() &&
            wanted.fibre.compare(thread.fibre, Qt::CaseInsensitive) != 0) {
            warnings.push_back(
                {WarningKind::OtherFibre, WarningTexts::tr("%1 is %2, not %3")
                                              .arg(thread.code, thread.fibre, wanted.fibre)});
        }
        if (thread.strands != wanted.strands) {
            warnings.push_back({WarningKind::OtherStrands,
                                WarningTexts::tr("%1 has %2 plies, not %3: check how thick it lies")
                                    .arg(thread.code)
                                    .arg(thread.strands)
                                    .arg(wanted.strands)});
        }
    }
}

void warnOfStock(const Candidate& candidate, std::vector<Warning>& warnings) {
    for (const auto& portion : candidate.portions) {
        const Thread& thread = portion.thread.thread;
        if (thread.stash > 0) {
            continue; // already in the drawer
        }
        if (thread.stock == Stock::Out) {
            warnings.push_back(
                {WarningKind::OutOfStock, WarningTexts::tr("%1 is out of stock").arg(thread.code)});
        } else if (thread.stock == Stock::Discontinued) {
            warnings.push_back({WarningKind::Discontinued,
                                WarningTexts::tr("%1 is discontinued").arg(thread.code)});
        }
    }
}

void warnOfReading(const Candidate& candidate, const Wanted& wanted,
                   std::vector<Warning>& warnings) {
    // The spread of a variegated thread is the run of its colours, not a doubt about one.
    const auto isRun = [](const Thread& thread) { return thread.finish == Finish::Variegated; };
    if ((wanted.thread && isRun(*wanted.thread)) ||
        std::ranges::any_of(candidate.portions, [&](const Candidate::Portion& portion) {
            return isRun(portion.thread.thread);
        })) {
        return;
    }
    // Independent spreads add as squares, each by its share of the strands.
    double variance = 0;
    if (wanted.thread && wanted.thread->spread) {
        variance += *wanted.thread->spread * *wanted.thread->spread;
    }
    int strands = 0;
    for (const auto& portion : candidate.portions) {
        strands += portion.strands;
    }
    for (const auto& portion : candidate.portions) {
        const double spread =
            portion.thread.thread.spread.value_or(0) * portion.strands / std::max(1, strands);
        variance += spread * spread;
    }
    const double spread = std::sqrt(variance);
    if (spread > 0 && candidate.de00 <= spread) {
        warnings.push_back(
            {WarningKind::WithinSpread,
             WarningTexts::tr("Within the reading spread (ΔE %1): compare the skeins")
                 .arg(spread, 0, 'f', 1)});
    }
}

} // namespace

std::vector<Warning> warningsFor(const Candidate& candidate, const SubstituteQuestion& question) {
    std::vector<Warning> warnings;
    warnOfKey(candidate, question, warnings);
    warnOfFinish(candidate, question.wanted.thread, warnings);
    if (question.wanted.thread) {
        warnOfMake(candidate, *question.wanted.thread, warnings);
    }
    if (candidate.isBlend()) {
        const double apart = colour::deltaE00(candidate.portions[0].thread.thread.lab,
                                              candidate.portions[1].thread.thread.lab);
        if (apart > warning_limits::kSpeckled) {
            warnings.push_back(
                {WarningKind::Speckled, WarningTexts::tr("Looks speckled: the two are ΔE %1 apart")
                                            .arg(apart, 0, 'f', 0)});
        }
    }
    warnOfReading(candidate, question.wanted, warnings);
    warnOfStock(candidate, warnings);
    return warnings;
}

} // namespace otherskein::colourway
