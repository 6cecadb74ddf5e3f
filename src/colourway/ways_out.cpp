#include "colourway/ways_out.h"

#include "colour/contrast.h"
#include "colour/mixing.h"

#include <QStringList>

#include <algorithm>
#include <cassert>

namespace otherskein::colourway {

namespace {

constexpr int kMostStrandsTried = 12;

/// The part's row of the key.
const chart::KeyRow& keyRowOf(const Subject& subject, std::size_t part) {
    return subject.chart.key[subject.parts.parts[part].key];
}

Contrast contrastOfPart(const Subject& subject, const Choice& choice, std::size_t part,
                        const Stitched& stitched) {
    if (subject.parts.parts[part].stitches == 0) {
        return contrastOn(stitched.ground, choice.lab, 1); // backstitch lies on the cloth, unbroken
    }
    const int strands = strandsOf(keyRowOf(subject, part), stitched);
    return contrastOn(stitched.ground, choice.lab, coverageOf(choice, strands, stitched));
}

std::optional<WaysOut::MoreStrands> moreStrands(const Subject& subject, const Choice& choice,
                                                std::size_t part, const Stitched& stitched) {
    if (subject.parts.parts[part].stitches == 0) {
        return std::nullopt;
    }
    const int present = strandsOf(keyRowOf(subject, part), stitched);
    double before = coverageOf(choice, present, stitched);
    for (int strands = present + 1; strands <= kMostStrandsTried && before < 1; ++strands) {
        before = coverageOf(choice, strands, stitched);
        const Contrast contrast = contrastOn(stitched.ground, choice.lab, before);
        if (contrast.verdict != Verdict::Vanishes) {
            return WaysOut::MoreStrands{strands, contrast};
        }
    }
    return std::nullopt;
}

std::vector<WaysOut::OtherGround> otherGrounds(const Subject& subject,
                                               const std::vector<Choice>& now, std::size_t part,
                                               const Stitched& stitched,
                                               std::span<const thread::Ground> grounds) {
    std::vector<WaysOut::OtherGround> found;
    for (std::size_t i = 0; i < grounds.size(); ++i) {
        Stitched there = stitched;
        there.ground = grounds[i];
        const std::vector<Contrast> contrasts = contrastsOf(subject, now, there);
        if (contrasts[part].verdict != Verdict::Vanishes) {
            int vanishing = 0;
            for (std::size_t p = 0; p < contrasts.size(); ++p) {
                vanishing += isLost(subject.parts.parts[p], contrasts[p]) ? 1 : 0;
            }
            found.push_back({i, contrasts[part], vanishing});
        }
    }
    std::ranges::stable_sort(found, [](const auto& one, const auto& other) {
        return one.vanishing != other.vanishing ? one.vanishing < other.vanishing
                                                : one.contrast.de00 > other.contrast.de00;
    });
    return found;
}

/// Fibres of the parts, in lower case: wool does not stand in for cotton where cotton can be had.
QStringList fibresOf(const std::vector<Choice>& now, const std::vector<std::size_t>& parts) {
    QStringList fibres;
    for (const std::size_t part : parts) {
        for (const Choice::Portion& portion : now[part].portions) {
            fibres.push_back(portion.thread.fibre.trimmed().toLower());
        }
    }
    return fibres;
}

/// The pool's threads, of those fibres if any is named, that reach `least` on the ground when
/// worked with as many strands as any of the parts has fewest: so each shows for all of them.
thread::ThreadPool showing(const thread::ThreadPool& pool, const Stitched& stitched, int strands,
                           double least, const QStringList& fibres) {
    std::vector<thread::PooledThread> kept;
    for (const thread::PooledThread& one : pool.threads()) {
        if (!fibres.isEmpty() && !fibres.contains(one.thread.fibre.trimmed().toLower())) {
            continue;
        }
        const double covered = coverage(stitched.ground, strands, stitched.widths.of(one.thread));
        if (contrastOn(stitched.ground, one.thread.lab, covered).de00 >= least) {
            kept.push_back(one);
        }
    }
    return thread::ThreadPool(std::move(kept));
}

/// The colour in use, lighter or darker away from the ground until it shows clearly, hue and chroma
/// as they are; the other way where there is no room.
colour::Lab offTheGround(const colour::Lab& lab, const thread::Ground& ground, double coverage) {
    const double away = lab.L != ground.lab.L ? lab.L - ground.lab.L : 50 - ground.lab.L;
    for (const double sign : {away >= 0 ? 1.0 : -1.0, away >= 0 ? -1.0 : 1.0}) {
        for (double L = lab.L; L >= 0 && L <= 100; L += sign) {
            const colour::Lab moved{L, lab.a, lab.b};
            if (contrastOn(ground, moved, coverage).de00 >= kClearFrom) {
                return moved;
            }
        }
    }
    return lab;
}

} // namespace

Contrast contrastOn(const thread::Ground& ground, const colour::Lab& thread, double coverage) {
    Contrast contrast;
    contrast.coverage = coverage;
    contrast.apparent = colour::apparentColour(thread, ground.lab, coverage);
    contrast.de00 = colour::deltaE00(contrast.apparent, ground.lab);
    contrast.dL = contrast.apparent.L - ground.lab.L;
    contrast.ratio = colour::contrastRatio(contrast.apparent, ground.lab);
    contrast.verdict = verdictOf(contrast.de00);
    return contrast;
}

int strandsOf(const chart::KeyRow& row, const Stitched& stitched) {
    return stitched.strands.value_or(std::max(1, row.strands));
}

/// Strands of a blend lie side by side, each as wide as its own thread.
double coverageOf(const Choice& choice, int strands, const Stitched& stitched) {
    double width = kPlyWidthMm;
    if (!choice.portions.empty()) {
        double sum = 0;
        int counted = 0;
        for (const Choice::Portion& portion : choice.portions) {
            sum += portion.strands * stitched.widths.of(portion.thread);
            counted += portion.strands;
        }
        width = counted > 0 ? sum / counted : kPlyWidthMm;
    }
    return coverage(stitched.ground, strands, width);
}

std::vector<Contrast> contrastsOf(const Subject& subject, const std::vector<Choice>& now,
                                  const Stitched& stitched) {
    assert(subject.parts.by == By::Colour && now.size() == subject.parts.parts.size());
    std::vector<Contrast> contrasts;
    contrasts.reserve(now.size());
    for (std::size_t i = 0; i < now.size(); ++i) {
        contrasts.push_back(contrastOfPart(subject, now[i], i, stitched));
    }
    return contrasts;
}

bool isLost(const Part& part, const Contrast& contrast) {
    constexpr double kMinded = 0.1;
    return contrast.verdict == Verdict::Vanishes &&
           (part.stitches > 0 || part.bareLineCells >= kMinded * part.lineCells);
}

WaysOut waysOut(const Subject& subject, const std::vector<Choice>& now, std::size_t part,
                const Stitched& stitched, std::span<const thread::Ground> grounds,
                const RecolourQuestion& question, const thread::ThreadPool& pool) {
    WaysOut ways;
    ways.strands = moreStrands(subject, now[part], part, stitched);
    ways.grounds = otherGrounds(subject, now, part, stitched, grounds);
    const auto pushed = pushedOff(subject, now, {part}, stitched, question, pool);
    if (pushed && !(*pushed)[part].isSameAs(now[part])) {
        const Choice& choice = (*pushed)[part];
        const Contrast contrast = contrastOfPart(subject, choice, part, stitched);
        ways.thread =
            WaysOut::OtherThread{choice, contrast, colour::deltaE00(choice.lab, now[part].lab)};
    }
    return ways;
}

std::optional<std::vector<Choice>> pushedOff(const Subject& subject, const std::vector<Choice>& now,
                                             const std::vector<std::size_t>& lost,
                                             const Stitched& stitched,
                                             const RecolourQuestion& question,
                                             const thread::ThreadPool& pool,
                                             const Progress& progress) {
    assert(subject.parts.by == By::Colour && now.size() == subject.parts.parts.size());
    if (lost.empty()) {
        return now;
    }
    int strands = kMostStrandsTried;
    for (const std::size_t part : lost) {
        strands = std::min(strands, strandsOf(keyRowOf(subject, part), stitched));
    }
    const QStringList fibres = fibresOf(now, lost);
    thread::ThreadPool shows;
    for (const double least : {kClearFrom, kVanishesBelow}) {
        for (const QStringList& among : {fibres, QStringList()}) {
            if (shows.size() == 0) {
                shows = showing(pool, stitched, strands, least, among);
            }
        }
    }
    if (shows.size() == 0) {
        return now;
    }
    Subject asIs = subject; // what is in use now is what the new threads should stay near to
    asIs.charted = now;
    for (const std::size_t part : lost) {
        const bool lines = subject.parts.parts[part].stitches == 0;
        const double covered = lines ? 1 : coverageOf(now[part], strands, stitched);
        asIs.charted[part].lab = offTheGround(now[part].lab, stitched.ground, covered);
    }
    RecolourQuestion ask = question;
    ask.by = By::Colour;
    ask.theme = AsCharted{};
    ask.colours = 0;
    ask.blends = false;
    ask.ground = stitched.ground;
    ask.strands = strands;
    ask.onGround = kClearFrom;
    ask.locks.clear();
    for (std::size_t part = 0; part < now.size(); ++part) {
        if (std::ranges::find(lost, part) == lost.end()) {
            ask.locks[part] = now[part];
        }
    }
    const auto solved = recolour(asIs, ask, shows, progress);
    if (!solved) {
        return std::nullopt;
    }
    std::vector<Choice> pushed = now;
    for (const std::size_t part : lost) {
        pushed[part] = solved->now[part];
    }
    return pushed;
}

} // namespace otherskein::colourway
