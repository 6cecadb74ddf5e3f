#include "colourway/wanted_search.h"

#include "base/natural_order.h"
#include "colour/conversion.h"

#include <algorithm>
#include <tuple>

namespace otherskein::colourway {

namespace {

constexpr int kNoMatch = 4;

int quality(const thread::Thread& thread, const QString& text) {
    if (thread.code.compare(text, Qt::CaseInsensitive) == 0) {
        return 0;
    }
    if (thread.code.startsWith(text, Qt::CaseInsensitive)) {
        return 1;
    }
    const qsizetype inName = thread.name.indexOf(text, 0, Qt::CaseInsensitive);
    if (inName == 0 || (inName > 0 && thread.name[inName - 1].isSpace())) {
        return 2;
    }
    return inName > 0 || thread.code.contains(text, Qt::CaseInsensitive) ? 3 : kNoMatch;
}

struct Meant {
    int quality;
    const thread::ShadeCard* card;
    const thread::Thread* thread;
    QString code; ///< so that plain comparison gives natural order
};

} // namespace

std::vector<Wanted> threadsMeant(const std::vector<thread::ShadeCard>& cards, const QString& text,
                                 std::size_t most) {
    const QString sought = text.trimmed();
    if (sought.isEmpty()) {
        return {};
    }
    std::vector<Meant> found;
    for (const thread::ShadeCard& card : cards) {
        for (const thread::Thread& one : card.threads) {
            if (const int q = quality(one, sought); q != kNoMatch) {
                found.push_back({q, &card, &one, base::naturalKey(one.code)});
            }
        }
    }
    const auto before = [](const Meant& one, const Meant& other) {
        return std::tie(one.quality, one.card->name, one.code) <
               std::tie(other.quality, other.card->name, other.code);
    };
    const std::size_t shown = std::min(most, found.size());
    std::partial_sort(found.begin(), found.begin() + static_cast<std::ptrdiff_t>(shown),
                      found.end(), before);
    std::vector<Wanted> meant;
    for (std::size_t i = 0; i < shown; ++i) {
        const thread::Thread& one = *found[i].thread;
        meant.push_back({found[i].card->name, one.code, one.name, one.lab, one});
    }
    return meant;
}

Wanted wantedColour(const colour::Srgb8& srgb) {
    return {{}, {}, colour::toHex(srgb), colour::labFromSrgb(srgb), std::nullopt};
}

std::optional<Wanted> wantedMeant(const std::vector<thread::ShadeCard>& cards,
                                  const QString& text) {
    if (const auto srgb = colour::parseHex(text.trimmed())) {
        return wantedColour(*srgb);
    }
    auto meant = threadsMeant(cards, text, 1);
    return meant.empty() ? std::nullopt : std::optional(std::move(meant.front()));
}

} // namespace otherskein::colourway
