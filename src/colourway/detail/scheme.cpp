#include "colour/conversion.h"
#include "colourway/detail/chance.h"
#include "colourway/detail/jobs.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace otherskein::colourway {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(Scheme)
};

/// A way to lay `count` colours out in hue, strength and lightness. Ours: what looks planned.
struct Layout {
    const char* name;
    double from;   ///< hue of the first colour, degrees from the scheme's start
    double across; ///< degrees that the colours run over
    double chroma;
    double lightness; ///< from the middle that suits the ground
    double swing;     ///< L* by which neighbours in the row swing up and down
    double run;       ///< L* by which lightness rises along the row
    bool twoSides;    ///< half of the colours lie opposite
    bool anyStart;    ///< may begin at any hue
};

constexpr Layout kLayouts[] = {
    {QT_TRANSLATE_NOOP("Scheme", "All round"), 0, 360, 42, 0, 6, 0, false, true},
    {QT_TRANSLATE_NOOP("Scheme", "Dusk"), 250, 170, 32, -3, 7, 10, false, false},
    {QT_TRANSLATE_NOOP("Scheme", "Two sides"), 0, 120, 40, 0, 6, 8, true, true},
    {QT_TRANSLATE_NOOP("Scheme", "Washed by the sea"), 0, 360, 20, 4, 8, 0, false, true},
    {QT_TRANSLATE_NOOP("Scheme", "Deep"), 0, 360, 38, -13, 5, 0, false, true},
    {QT_TRANSLATE_NOOP("Scheme", "Near of kin"), 0, 100, 36, 0, 4, 26, false, true},
    {QT_TRANSLATE_NOOP("Scheme", "Bright"), 0, 360, 60, 8, 6, 0, false, true},
    {QT_TRANSLATE_NOOP("Scheme", "Earth and leaf"), 28, 110, 34, -2, 7, 14, false, false},
};

/// Lightness from which both a light and a dark ground are well left behind.
double middleLightness(const colour::Lab& ground) {
    constexpr double kOnLight = 50;
    constexpr double kOnDark = 70;
    constexpr double kLightFrom = 55;
    return ground.L >= kLightFrom ? kOnLight : kOnDark;
}

/// Dyed fibre is strong in the middle of lightness and weak towards black and white (from memory).
double chromaAt(double L, double chroma) {
    constexpr double kStrongest = 58;
    constexpr double kWidth = 52;
    const double off = (L - kStrongest) / kWidth;
    return chroma * std::max(0.2, 1 - off * off);
}

Scheme open(const RecolourQuestion& question, std::size_t count, std::uint64_t variation) {
    const std::uint64_t turn = variation + question.seed - 1;
    const Layout& layout = kLayouts[turn % std::size(kLayouts)];
    Chance chance(turn);
    // The first colourways begin where a sea blue is among the colours; later ones anywhere.
    const double start = layout.anyStart ? (turn == 0 ? 30 : chance.between(0, 360)) : 0;
    const double middle = middleLightness(question.ground.lab) + layout.lightness;
    Scheme scheme{Texts::tr(layout.name), {}};
    const auto steps = static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double along = layout.across >= 360 ? static_cast<double>(i) / steps
                             : count > 1          ? static_cast<double>(i) / (steps - 1)
                                                  : 0.5;
        double hue = start + layout.from + layout.across * along;
        if (layout.twoSides && i % 2 == 1) {
            hue += 180;
        }
        const double L = middle + (i % 2 == 0 ? layout.swing : -layout.swing) +
                         layout.run * (along - 0.5) + chance.between(-2, 2);
        scheme.targets.push_back({labOf(L, chromaAt(L, layout.chroma), hue), Target::Kind::Exact});
    }
    return scheme;
}

Scheme oneHue(const HueFamily& family, const RecolourQuestion& question, std::size_t count,
              std::uint64_t variation) {
    struct Manner {
        const char* name;
        double fan; ///< degrees to each side
        double chroma;
        double from; ///< L* on a light ground; a dark one lifts both
        double to;
    };
    constexpr Manner kManners[] = {
        {QT_TRANSLATE_NOOP("Scheme", "Dark to light"), 14, 42, 24, 76},
        {QT_TRANSLATE_NOOP("Scheme", "With its neighbours"), 38, 42, 30, 72},
        {QT_TRANSLATE_NOOP("Scheme", "Quiet"), 18, 22, 28, 74},
        {QT_TRANSLATE_NOOP("Scheme", "Strong"), 16, 64, 32, 68},
        {QT_TRANSLATE_NOOP("Scheme", "Deep"), 20, 40, 16, 56},
        {QT_TRANSLATE_NOOP("Scheme", "Pale"), 20, 32, 46, 80},
    };
    constexpr double kOnDark = 16;
    const std::uint64_t turn = variation + question.seed - 1;
    const Manner& manner = kManners[turn % std::size(kManners)];
    Chance chance(turn);
    const double lift = question.ground.lab.L < 55 ? kOnDark : 0;
    Scheme scheme{Texts::tr(manner.name), {}};
    for (std::size_t i = 0; i < count; ++i) {
        const double along =
            count > 1 ? static_cast<double>(i) / static_cast<double>(count - 1) : 0.5;
        const double L = lift + manner.from + (manner.to - manner.from) * along;
        // Light and dark take turns on the two sides of the hue, so that steps differ in both.
        const double side = i % 2 == 0 ? -1 : 1;
        const double hue = family.hue + side * manner.fan * chance.between(0.4, 1);
        scheme.targets.push_back({labOf(L, chromaAt(L, manner.chroma), hue), Target::Kind::Family});
    }
    return scheme;
}

Scheme ofPicture(const FromPicture& picture, const RecolourQuestion& question, std::size_t count,
                 std::uint64_t variation) {
    // Later variations leave main colours out in turn, or shift all in lightness.
    Scheme scheme{variation == 0 ? Texts::tr("As the picture") : Texts::tr("After the picture"),
                  {}};
    const std::uint64_t turn = variation + question.seed - 1;
    Chance chance(turn);
    const double lift = turn == 0 ? 0 : chance.between(-12, 12);
    const double strength = turn == 0 ? 1 : chance.between(0.7, 1.3);
    const std::size_t n = picture.colours.size();
    for (std::size_t i = 0; i < std::min(count, n); ++i) {
        const colour::Lab& main = picture.colours[(i + turn) % n];
        scheme.targets.push_back(
            {{std::clamp(main.L + lift, 5.0, 97.0), main.a * strength, main.b * strength},
             Target::Kind::Exact});
    }
    return scheme;
}

} // namespace

Scheme schemeOf(const RecolourQuestion& question, std::size_t count, std::uint64_t variation) {
    if (const auto* family = std::get_if<HueFamily>(&question.theme)) {
        return oneHue(*family, question, count, variation);
    }
    if (const auto* picture = std::get_if<FromPicture>(&question.theme);
        picture != nullptr && !picture->colours.empty()) {
        return ofPicture(*picture, question, count, variation);
    }
    return open(question, count, variation);
}

} // namespace otherskein::colourway
