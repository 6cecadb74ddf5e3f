#include "colourway/detail/targets.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace otherskein::colourway {

namespace {

constexpr double kDegree = std::numbers::pi / 180;

/// What a variation does to hue and strength. The first ones step outwards in an order that looks
/// planned on a wall; later ones go to other hues.
struct Turn {
    double hue = 0; ///< degrees
    double chroma = 1;
};

Turn smallTurn(std::uint64_t variation) {
    constexpr Turn kPlanned[] = {{0, 1},   {0, 0.62},  {14, 1},     {-14, 1},
                                 {0, 1.3}, {20, 0.75}, {-20, 0.75}, {9, 1.2}};
    if (variation < std::size(kPlanned)) {
        return kPlanned[variation];
    }
    // Past those, other hues altogether: a wall that had only small steps would look like one
    // answer.
    constexpr double kGoldenAngle = 137.50776405003785;
    return {kGoldenAngle * static_cast<double>(variation - std::size(kPlanned) + 1), 1};
}

/// Middle hue of the parts that have one, weighed by stitches and strength.
double middleHue(const Subject& subject) {
    double x = 0;
    double y = 0;
    for (std::size_t i = 0; i < subject.charted.size(); ++i) {
        const colour::Lab& lab = subject.charted[i].lab;
        if (!isNeutral(lab)) {
            x += subject.parts.parts[i].size() * lab.a;
            y += subject.parts.parts[i].size() * lab.b;
        }
    }
    return std::atan2(y, x) / kDegree;
}

/// -180..180.
double turned(double degrees) {
    return std::remainder(degrees, 360);
}

Target inFamily(const colour::Lab& was, const HueFamily& family, double middle, const Turn& turn) {
    // A family is not one hue: a little of the chart's own spread stays.
    constexpr double kSpreadKept = 0.2;
    constexpr double kWidest = 14;
    constexpr double kTintOfNeutrals = 9;
    if (isNeutral(was)) {
        if (!family.neutralsToo) {
            return {was, Target::Kind::Exact};
        }
        return {labOf(was.L, kTintOfNeutrals, family.hue + turn.hue), Target::Kind::Family};
    }
    const double fan =
        std::clamp(kSpreadKept * turned(colour::hueDegrees(was) - middle), -kWidest, kWidest);
    return {labOf(was.L, colour::chroma(was) * turn.chroma, family.hue + fan + turn.hue),
            Target::Kind::Family};
}

/// The picture's colour for a lightness: hue and strength of the two main colours around it.
colour::Lab ofPicture(const FromPicture& picture, double L, std::uint64_t variation) {
    // Other variations take the colours in another order of lightness: each row then leans on a
    // neighbour of its own match.
    std::vector<colour::Lab> colours = picture.colours;
    std::ranges::sort(colours, {}, &colour::Lab::L);
    const auto distance = [&](const colour::Lab& one) { return std::abs(one.L - L); };
    auto nearest = std::ranges::min_element(colours, {}, distance);
    const auto shift = static_cast<std::ptrdiff_t>(variation % colours.size());
    const auto place =
        (nearest - colours.begin() + shift) % static_cast<std::ptrdiff_t>(colours.size());
    const colour::Lab& taken = colours[static_cast<std::size_t>(place)];
    return {L, taken.a, taken.b};
}

} // namespace

colour::Lab labOf(double L, double chroma, double hueDegrees) {
    return {L, chroma * std::cos(hueDegrees * kDegree), chroma * std::sin(hueDegrees * kDegree)};
}

bool isNeutral(const colour::Lab& lab) {
    constexpr double kGrey = 8;
    constexpr double kBlackBelow = 14;
    constexpr double kWhiteFrom = 92;
    constexpr double kTinted = 13; // black and white keep their name with more of a tint than grey
    const double chroma = colour::chroma(lab);
    return chroma < kGrey || (chroma < kTinted && (lab.L < kBlackBelow || lab.L >= kWhiteFrom));
}

double missOf(const Target& target, const colour::Lab& lab) {
    if (target.kind == Target::Kind::Exact) {
        return colour::deltaE00(target.lab, lab);
    }
    constexpr double kChroma = 0.25;
    constexpr double kHue = 1.5;
    const colour::DifferenceParts parts = colour::differenceParts(target.lab, lab);
    return std::sqrt(parts.dL * parts.dL + kChroma * parts.dC * parts.dC +
                     kHue * parts.dH * parts.dH);
}

std::vector<Target> targetsOf(const Subject& subject, const RecolourQuestion& question,
                              std::uint64_t variation) {
    std::vector<Target> targets;
    const double middle = middleHue(subject);
    for (const Choice& charted : subject.charted) {
        const colour::Lab& was = charted.lab;
        Target target{was, Target::Kind::Exact};
        if (const auto* family = std::get_if<HueFamily>(&question.theme)) {
            target = inFamily(was, *family, middle, smallTurn(variation));
        } else if (std::holds_alternative<Surprise>(question.theme) && !isNeutral(was)) {
            // The golden angle: however many are taken, they lie well apart.
            constexpr double kGoldenAngle = 137.50776405003785;
            const double turn = 60 + kGoldenAngle * static_cast<double>(variation + question.seed);
            const double hue = colour::hueDegrees(was) + turn;
            target = {labOf(was.L, colour::chroma(was), hue), Target::Kind::Family};
        } else if (const auto* picture = std::get_if<FromPicture>(&question.theme);
                   picture != nullptr && !picture->colours.empty()) {
            target = {ofPicture(*picture, was.L, variation), Target::Kind::Family};
        }
        targets.push_back(target);
    }
    return targets;
}

std::vector<Target> targetsLike(const std::vector<Choice>& liked, std::uint64_t variation) {
    const Turn turn = smallTurn(variation);
    std::vector<Target> targets;
    for (const Choice& choice : liked) {
        const colour::Lab& lab = choice.lab;
        targets.push_back(isNeutral(lab) ? Target{lab, Target::Kind::Exact}
                                         : Target{labOf(lab.L, colour::chroma(lab) * turn.chroma,
                                                        colour::hueDegrees(lab) + turn.hue),
                                                  Target::Kind::Family});
    }
    return targets;
}

} // namespace otherskein::colourway
