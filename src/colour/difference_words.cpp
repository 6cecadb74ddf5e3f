#include "colour/difference_words.h"

#include "colour/difference.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::colour {

namespace {

// Limits in ΔE00 or in the part's own CIELAB units; ours, common practice, no source.
constexpr double kInvisible = 1.0;
constexpr double kLittle = 2.5;
constexpr double kSlight = 5.0;
constexpr double kPlain = 10.0;
/// Under this chroma a hue has no name and a change reads as "warmer" or "greyer".
constexpr double kNeutralChroma = 5.0;
/// A second part is named when it is at least this share of the first.
constexpr double kWorthNaming = 0.5;
/// Lightness and chroma become one word when the smaller is at least this share of the larger.
constexpr double kWorthMerging = 0.35;
/// A move is "towards grey" when at least this share of it is loss of chroma.
constexpr double kMostly = 0.7;
/// L* from which a neutral is called white, and up to which it is called black.
constexpr double kWhite = 90.0;
constexpr double kBlack = 20.0;

struct HueName {
    double hueDegrees;
    const char* comparative;
};

// Where the plain hue names lie on the CIELAB circle: near the hue angles of the six sRGB corner
// colours' dyed counterparts. From memory of common colour atlases; a name only points a direction.
constexpr std::array<HueName, 8> kHueNames{{{5, QT_TRANSLATE_NOOP("colour", "pinker")},
                                            {30, QT_TRANSLATE_NOOP("colour", "redder")},
                                            {60, QT_TRANSLATE_NOOP("colour", "more orange")},
                                            {92, QT_TRANSLATE_NOOP("colour", "yellower")},
                                            {150, QT_TRANSLATE_NOOP("colour", "greener")},
                                            {205, QT_TRANSLATE_NOOP("colour", "more turquoise")},
                                            {265, QT_TRANSLATE_NOOP("colour", "bluer")},
                                            {320, QT_TRANSLATE_NOOP("colour", "more violet")}}};

QString translated(const char* text) {
    return QCoreApplication::translate("colour", text);
}

double turn(double from, double to) {
    return std::remainder(to - from, 360.0);
}

/// The named hue on the side to which the colour turned that lies nearest to where it arrived: a
/// small turn reads as the next name ahead, a large one as its goal.
const char* hueWord(double wantedHue, double otherHue, double sign) {
    const double turned = std::abs(turn(wantedHue, otherHue));
    const HueName* best = nullptr;
    double bestGap = 360;
    for (std::size_t i = 0; i < kHueNames.size(); ++i) {
        const std::size_t before = (i + (sign > 0 ? kHueNames.size() - 1 : 1)) % kHueNames.size();
        const double spacing =
            std::abs(turn(kHueNames[before].hueDegrees, kHueNames[i].hueDegrees));
        const double ahead = turn(wantedHue, kHueNames[i].hueDegrees) * sign;
        // A colour already near a name moves towards the next one.
        if (ahead > spacing / 3 && std::abs(ahead - turned) < bestGap) {
            best = &kHueNames[i];
            bestGap = std::abs(ahead - turned);
        }
    }
    return best == nullptr ? kHueNames[0].comparative : best->comparative;
}

const char* nearestHueWord(double hue) {
    return std::ranges::min_element(
               kHueNames, {},
               [hue](const HueName& name) { return std::abs(turn(hue, name.hueDegrees)); })
        ->comparative;
}

struct Part {
    double size;
    const char* word;
};
constexpr Part kNothing{0, ""};

/// Two parts as one, where the trade has one word for them.
Part together(const Part& one, const Part& other, const char* word) {
    return {std::hypot(one.size, other.size), word};
}

/// Where one of the two is nearly neutral, only the direction in the plane has a meaning.
std::array<Part, 2> partsNearGrey(const Lab& wanted, const Lab& other, const Part& lightness) {
    const Lab shift{0, other.a - wanted.a, other.b - wanted.b};
    const double lost = chroma(wanted) - chroma(other);
    const bool losesColour = chroma(wanted) >= kNeutralChroma && lost >= kMostly * chroma(shift);
    if (!losesColour) {
        return {lightness, Part{chroma(shift), nearestHueWord(hueDegrees(shift))}};
    }
    const Part greyness{chroma(shift), QT_TRANSLATE_NOOP("colour", "greyer")};
    if (other.L >= kWhite && other.L > wanted.L) {
        return {together(lightness, greyness, QT_TRANSLATE_NOOP("colour", "whiter")), kNothing};
    }
    if (other.L <= kBlack && other.L < wanted.L) {
        return {together(lightness, greyness, QT_TRANSLATE_NOOP("colour", "blacker")), kNothing};
    }
    return {lightness, greyness};
}

std::array<Part, 3> parts(const Lab& wanted, const Lab& other) {
    const DifferenceParts d = differenceParts(wanted, other);
    const Part lightness{std::abs(d.dL), d.dL > 0 ? QT_TRANSLATE_NOOP("colour", "lighter")
                                                  : QT_TRANSLATE_NOOP("colour", "darker")};
    if (chroma(wanted) < kNeutralChroma || chroma(other) < kNeutralChroma) {
        const auto [first, second] = partsNearGrey(wanted, other, lightness);
        return {first, second, kNothing};
    }
    // Chroma and hue are scaled as CIEDE2000 scales them, so that sizes compare with lightness.
    const double meanC = (chroma(wanted) + chroma(other)) / 2;
    const Part colourfulness{std::abs(d.dC) / (1 + 0.045 * meanC),
                             d.dC > 0 ? QT_TRANSLATE_NOOP("colour", "brighter")
                                      : QT_TRANSLATE_NOOP("colour", "duller")};
    const Part hue{std::abs(d.dH) / (1 + 0.015 * meanC),
                   hueWord(hueDegrees(wanted), hueDegrees(other), d.dH > 0 ? 1.0 : -1.0)};
    // More dye makes a shade darker and more colourful at once; "darker and brighter" would puzzle.
    const bool oneMove =
        d.dL * d.dC < 0 && std::min(lightness.size, colourfulness.size) >=
                               kWorthMerging * std::max(lightness.size, colourfulness.size);
    if (oneMove) {
        return {together(lightness, colourfulness,
                         d.dL > 0 ? QT_TRANSLATE_NOOP("colour", "paler")
                                  : QT_TRANSLATE_NOOP("colour", "deeper")),
                kNothing, hue};
    }
    return {lightness, colourfulness, hue};
}

QString sized(double size, const QString& what) {
    if (size < kLittle) {
        return QCoreApplication::translate("colour", "A touch %1").arg(what);
    }
    if (size < kSlight) {
        return QCoreApplication::translate("colour", "A little %1").arg(what);
    }
    if (size < kPlain) {
        return QCoreApplication::translate("colour", "Clearly %1").arg(what);
    }
    return QCoreApplication::translate("colour", "Much %1").arg(what);
}

} // namespace

QString differenceInWords(const Lab& wanted, const Lab& other) {
    const double de00 = deltaE00(wanted, other);
    if (de00 < kInvisible) {
        return QCoreApplication::translate("colour", "No visible difference");
    }
    auto named = parts(wanted, other);
    std::ranges::stable_sort(named, std::greater{}, &Part::size);
    QString what = translated(named[0].word);
    if (named[1].size >= kWorthNaming * named[0].size && named[1].size > 0) {
        what =
            QCoreApplication::translate("colour", "%1 and %2").arg(what, translated(named[1].word));
    }
    return sized(de00, what);
}

} // namespace otherskein::colour
