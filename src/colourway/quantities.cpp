#include "colourway/quantities.h"

#include "colourway/key_threads.h"

#include <QStringList>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace otherskein::colourway {

namespace {

constexpr double kFrontAndBack = 2 * std::numbers::sqrt2 + 2;
constexpr double kBackstitch = 3;

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

Quantity startOf(const InNeedle& one, const chart::KeyRow& row) {
    Quantity quantity;
    if (one.thread == nullptr) {
        quantity.card = row.card;
        quantity.code = row.code;
        quantity.name = row.name;
        quantity.shown = row.pixel;
        quantity.assumed = true;
        return quantity;
    }
    quantity.card = one.card;
    quantity.code = one.thread->code;
    quantity.name = one.thread->name;
    quantity.shown = thread::shownColour(*one.thread);
    quantity.plies = std::max(1, one.thread->strands);
    quantity.skeinM = one.thread->lengthM;
    quantity.stash = one.thread->stash;
    return quantity;
}

Quantity& placeOf(std::vector<Quantity>& threads, const InNeedle& one, const chart::KeyRow& row) {
    const Quantity fresh = startOf(one, row);
    const auto same = std::ranges::find_if(threads, [&](const Quantity& known) {
        return known.card == fresh.card && known.code == fresh.code && !known.code.isEmpty();
    });
    if (same != threads.end()) {
        return *same;
    }
    threads.push_back(fresh);
    return threads.back();
}

bool isOnCard(const Quantity& quantity, std::span<const thread::ShadeCard* const> cards) {
    chart::KeyRow row;
    row.card = quantity.card;
    row.code = quantity.code;
    return threadOf(row, cards) != nullptr;
}

/// "A + B" in a key: threads of one card or of the cards "C + D", sharing the needle evenly.
Choice blendOf(const chart::KeyRow& row, std::span<const thread::ShadeCard* const> cards) {
    const QString plus = QStringLiteral(" + ");
    const QStringList codes = row.code.split(plus);
    const QStringList names = row.card.split(plus);
    Choice choice;
    choice.lab = row.lab;
    for (qsizetype i = 0; i < codes.size(); ++i) {
        chart::KeyRow one = row;
        one.code = codes[i].section(QStringLiteral(" × "), -1);
        one.card = names.size() == codes.size() ? names[i] : names.value(0);
        const thread::Thread* thread = threadOf(one, cards);
        if (thread == nullptr) {
            return {};
        }
        choice.portions.push_back({one.card, *thread, 1});
    }
    return choice;
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
    return std::max(0, static_cast<int>(std::ceil(skeins - stash - kRounding)));
}

Quantities quantitiesOf(const Subject& subject, const std::vector<Choice>& now,
                        const Stitched& stitched, const Usage& usage,
                        std::span<const thread::ShadeCard* const> cards) {
    assert(subject.parts.by == By::Colour && now.size() == subject.parts.parts.size());
    Quantities result;
    for (std::size_t i = 0; i < now.size(); ++i) {
        const Part& part = subject.parts.parts[i];
        const chart::KeyRow& row = subject.chart.key[part.key];
        const int strands = strandsOf(row, stitched);
        const double mm = part.stitches * crossMm(stitched.ground) * strands +
                          backstitchMm(stitched.ground, part.lineCells) * usage.lineStrands;
        for (const InNeedle& one : needleOf(now[i])) {
            const std::size_t known = result.threads.size();
            Quantity& quantity = placeOf(result.threads, one, row);
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
        quantity.assumed |= !isOnCard(quantity, cards);
        quantity.toBuy = skeinsToBuy(quantity.skeins, quantity.stash);
        result.toBuy += quantity.toBuy;
        result.mixesLots |= quantity.toBuy > 0 && quantity.stash > 0;
    }
    return result;
}

Quantities quantitiesOf(const chart::Chart& chart, const Stitched& stitched, const Usage& usage,
                        std::span<const thread::ShadeCard* const> cards) {
    const auto subject = subjectOf(chart, By::Colour, {}, cards);
    std::vector<Choice> now = subject->charted;
    for (std::size_t i = 0; i < now.size(); ++i) {
        const chart::KeyRow& row = chart.key[subject->parts.parts[i].key];
        if (threadOf(row, cards) == nullptr && row.code.contains(QStringLiteral(" + "))) {
            if (const Choice blend = blendOf(row, cards); blend.isBlend()) {
                now[i] = blend;
            }
        }
    }
    return quantitiesOf(*subject, now, stitched, usage, cards);
}

} // namespace otherskein::colourway
