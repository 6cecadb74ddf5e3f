#include "colourway/quantities.h"

#include "colourway/key_threads.h"

#include <QStringList>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <optional>

namespace otherskein::colourway {

namespace {

constexpr double kFrontAndBack = 2 * std::numbers::sqrt2 + 2;
constexpr double kBackstitch = 3;
constexpr double kMostToBuy = 1e9; // what an int holds; no shop does

/// One thread's share of a needle.
struct InNeedle {
    const thread::Thread* thread = nullptr; ///< null for a bare colour
    QString card;
    double share = 1;
};

std::vector<InNeedle> needleOf(const Choice& choice) {
    if (choice.portions.empty()) {
        return {InNeedle{}};
    }
    double all = 0;
    for (const Choice::Portion& portion : choice.portions) {
        all += portion.strands;
    }
    std::vector<InNeedle> needle;
    for (const Choice::Portion& portion : choice.portions) {
        needle.push_back({&portion.thread, portion.card, portion.strands / std::max(1.0, all)});
    }
    return needle;
}

const thread::Thread* onCards(const QString& card, const QString& code,
                              std::span<const thread::ShadeCard* const> cards) {
    chart::KeyRow row;
    row.card = card;
    row.code = code;
    return threadOf(row, cards);
}

/// The card is asked first: a thread out of a saved colourway knows neither plies nor stash.
Quantity startOf(const InNeedle& one, const chart::KeyRow& row,
                 std::span<const thread::ShadeCard* const> cards) {
    Quantity quantity;
    if (one.thread == nullptr) {
        quantity.card = row.card;
        quantity.code = row.code;
        quantity.name = row.name;
        quantity.shown = row.pixel;
        quantity.assumed = true;
        return quantity;
    }
    const thread::Thread* known = onCards(one.card, one.thread->code, cards);
    const thread::Thread& thread = known != nullptr ? *known : *one.thread;
    quantity.card = one.card;
    quantity.code = thread.code;
    quantity.name = thread.name;
    quantity.shown = thread::shownColour(thread);
    quantity.plies = std::max(1, thread.strands);
    quantity.skeinM = thread.lengthM;
    quantity.stash = thread.stash;
    quantity.assumed = known == nullptr;
    return quantity;
}

Quantity& placeOf(std::vector<Quantity>& threads, const InNeedle& one, const chart::KeyRow& row,
                  std::span<const thread::ShadeCard* const> cards) {
    const Quantity fresh = startOf(one, row, cards);
    const auto same = std::ranges::find_if(threads, [&](const Quantity& known) {
        return known.card == fresh.card && known.code == fresh.code && !known.code.isEmpty();
    });
    if (same != threads.end()) {
        return *same;
    }
    threads.push_back(fresh);
    return threads.back();
}

/// What a key's row that is itself no thread stands for, if it is a blend: codes "A + B" of one
/// card or of the cards "C + D", or one code of both cards, as Choice writes them. Strands are
/// shared as evenly as they go, the odd one with the first, which has the more (thread/blends.h).
std::optional<Choice> blendOf(const chart::KeyRow& row,
                              std::span<const thread::ShadeCard* const> cards) {
    const QString plus = QStringLiteral(" + ");
    const QStringList codes = row.code.split(plus);
    const QStringList names = row.card.split(plus);
    const qsizetype count = std::max(codes.size(), names.size());
    const auto fits = [&](const QStringList& list) {
        return list.size() == 1 || list.size() == count;
    };
    if (count < 2 || !fits(codes) || !fits(names) || threadOf(row, cards) != nullptr) {
        return std::nullopt;
    }
    Choice choice;
    choice.lab = row.lab;
    const int strands = std::max(row.strands, static_cast<int>(count));
    for (qsizetype i = 0; i < count; ++i) {
        chart::KeyRow one = row;
        one.card = names.size() == 1 ? names[0] : names[i];
        one.code = codes.size() == 1 ? codes[0] : codes[i];
        if (threadOf(one, cards) == nullptr) {
            return std::nullopt;
        }
        choice.portions.push_back(chartedChoice(one, cards).portions.front());
        const int odd = i < strands % count ? 1 : 0;
        choice.portions.back().strands = strands / static_cast<int>(count) + odd;
    }
    return choice;
}

/// A colourway of motifs as one of the rows of its worked chart's key, which knows whose the lines
/// are.
Quantities quantitiesOfMotifs(const Subject& subject, const std::vector<Choice>& now,
                              const Stitched& stitched, const Usage& usage,
                              std::span<const thread::ShadeCard* const> cards) {
    Colourway colourway;
    colourway.by = By::Motif;
    colourway.now = now;
    const auto rows = subjectOf(workedChart(subject, colourway), By::Colour, {}, cards);
    // `worked` gives each different choice a row, in the order of parts; rows beyond them are
    // charted ones of lines along no motif.
    std::vector<Choice> different;
    for (const Choice& choice : now) {
        if (std::ranges::none_of(different,
                                 [&](const Choice& one) { return one.isSameAs(choice); })) {
            different.push_back(choice);
        }
    }
    std::vector<Choice> ofRows = rows->charted;
    for (std::size_t i = 0; i < ofRows.size(); ++i) {
        if (const std::size_t row = rows->parts.parts[i].key; row < different.size()) {
            ofRows[i] = different[row];
        }
    }
    return quantitiesOf(*rows, ofRows, stitched, usage, cards);
}

} // namespace

double crossMm(const thread::Ground& ground) {
    return kFrontAndBack * thread::cellSideMm(ground);
}

double backstitchMm(const thread::Ground& ground, double cells) {
    return kBackstitch * cells * thread::cellSideMm(ground);
}

std::optional<double> wasteFromSkein(int stitches, const thread::Thread& thread,
                                     const thread::Ground& ground, int strands) {
    if (stitches <= 0 || strands <= 0) {
        return std::nullopt;
    }
    const double skein = 1000 * thread.lengthM * thread.strands;
    const double waste = skein / (static_cast<double>(stitches) * strands * crossMm(ground)) - 1;
    return waste >= kLeastWaste && waste <= kMostWaste ? std::optional(waste) : std::nullopt;
}

int skeinsToBuy(double skeins, double stash) {
    constexpr double kRounding = 1e-6;
    return static_cast<int>(std::clamp(std::ceil(skeins - stash - kRounding), 0.0, kMostToBuy));
}

Quantities quantitiesOf(const Subject& subject, const std::vector<Choice>& now,
                        const Stitched& stitched, const Usage& usage,
                        std::span<const thread::ShadeCard* const> cards) {
    assert(now.size() == subject.parts.parts.size());
    if (subject.parts.by == By::Motif) {
        return quantitiesOfMotifs(subject, now, stitched, usage, cards);
    }
    Quantities result;
    for (std::size_t i = 0; i < now.size(); ++i) {
        const Part& part = subject.parts.parts[i];
        const chart::KeyRow& row = subject.chart.key[part.key];
        const int strands = strandsOf(row, stitched);
        const double mm = part.stitches * crossMm(stitched.ground) * strands +
                          backstitchMm(stitched.ground, part.lineCells) * usage.lineStrands;
        // A choice of one unknown thread may be a key's row that names two.
        const std::optional<Choice> blend =
            now[i].isSameAs(subject.charted[i]) ? blendOf(row, cards) : std::nullopt;
        for (const InNeedle& one : needleOf(blend ? *blend : now[i])) {
            const std::size_t known = result.threads.size();
            Quantity& quantity = placeOf(result.threads, one, row, cards);
            const bool isNew = result.threads.size() > known;
            if (isNew) {
                quantity.strands = strands;
            } else if (quantity.strands != strands) {
                quantity.strands.reset();
            }
            quantity.stitches += part.stitches;
            quantity.lineCells += part.lineCells;
            quantity.metres += mm * one.share / 1000;
        }
    }
    for (Quantity& quantity : result.threads) {
        quantity.skeins = quantity.metres * (1 + usage.waste) / (quantity.plies * quantity.skeinM);
        quantity.toBuy = skeinsToBuy(quantity.skeins, quantity.stash);
        result.toBuy = static_cast<int>(std::min(kMostToBuy, 1.0 * result.toBuy + quantity.toBuy));
        result.mixesLots |= quantity.toBuy > 0 && quantity.stash > 0;
    }
    return result;
}

Quantities quantitiesOf(const chart::Chart& chart, const Stitched& stitched, const Usage& usage,
                        std::span<const thread::ShadeCard* const> cards) {
    const auto subject = subjectOf(chart, By::Colour, {}, cards);
    return quantitiesOf(*subject, subject->charted, stitched, usage, cards);
}

} // namespace otherskein::colourway
