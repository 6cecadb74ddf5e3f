#include "colourway/ground_check.h"

#include "colour/contrast.h"
#include "colour/difference.h"
#include "colour/mixing.h"
#include "colourway/coverage.h"

#include <algorithm>
#include <tuple>

namespace otherskein::colourway {

Verdict verdictOf(double de00) {
    if (de00 < kVanishesBelow) {
        return Verdict::Vanishes;
    }
    return de00 < kClearFrom ? Verdict::Soft : Verdict::Clear;
}

QString wordOf(Verdict verdict) {
    switch (verdict) {
    case Verdict::Vanishes:
        return QStringLiteral("vanishes");
    case Verdict::Soft:
        return QStringLiteral("soft");
    case Verdict::Clear:
        break;
    }
    return QStringLiteral("clear");
}

std::vector<OnGround> checkGround(std::span<const thread::PooledThread> threads,
                                  const thread::Ground& ground, int strands,
                                  const PlyWidths& widths) {
    std::vector<OnGround> judged;
    judged.reserve(threads.size());
    for (const thread::PooledThread& one : threads) {
        const double covered = coverage(ground, strands, widths.of(one.thread));
        const colour::Lab apparent = colour::apparentColour(one.thread.lab, ground.lab, covered);
        const double de00 = colour::deltaE00(apparent, ground.lab);
        judged.push_back({one, covered, apparent, de00, apparent.L - ground.lab.L,
                          colour::contrastRatio(apparent, ground.lab), verdictOf(de00)});
    }
    std::ranges::sort(judged, [](const OnGround& one, const OnGround& other) {
        return std::tie(one.de00, one.thread.card, one.thread.thread.code) <
               std::tie(other.de00, other.thread.card, other.thread.thread.code);
    });
    return judged;
}

} // namespace otherskein::colourway
