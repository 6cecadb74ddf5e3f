#include "colour/difference.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace otherskein::colour {

namespace {

constexpr double kPow25To7 = 6103515625.0; // 25^7

double radians(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}

double pow7(double x) {
    const double x2 = x * x;
    return x2 * x2 * x2 * x;
}

/// One colour in the a'-stretched plane of CIEDE2000.
struct Primed {
    double C;
    double hDegrees;
};

Primed primed(const Lab& lab, double stretch) {
    const Lab stretched{lab.L, stretch * lab.a, lab.b};
    return {chroma(stretched), hueDegrees(stretched)};
}

struct Hues {
    double difference; ///< h2' - h1', -180..180
    double mean;
};

Hues hues(const Primed& one, const Primed& other) {
    if (one.C * other.C == 0) {
        return {0, one.hDegrees + other.hDegrees};
    }
    constexpr double kOpposite = 180.0 + 1e-9; // see the rule in the header
    const double difference = other.hDegrees - one.hDegrees;
    const double sum = one.hDegrees + other.hDegrees;
    if (std::abs(difference) <= kOpposite) {
        return {difference, sum / 2};
    }
    return {difference > 0 ? difference - 360 : difference + 360,
            sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2};
}

} // namespace

double deltaE00(const Lab& one, const Lab& other, const Weights& weights) {
    const double meanC7 = pow7((chroma(one) + chroma(other)) / 2);
    const double stretch = 1 + 0.5 * (1 - std::sqrt(meanC7 / (meanC7 + kPow25To7)));
    const Primed p1 = primed(one, stretch);
    const Primed p2 = primed(other, stretch);
    const Hues h = hues(p1, p2);

    const double dL = other.L - one.L;
    const double dC = p2.C - p1.C;
    const double dH = 2 * std::sqrt(p1.C * p2.C) * std::sin(radians(h.difference / 2));

    const double meanL = (one.L + other.L) / 2;
    const double meanC = (p1.C + p2.C) / 2;
    const double T =
        1 - 0.17 * std::cos(radians(h.mean - 30)) + 0.24 * std::cos(radians(2 * h.mean)) +
        0.32 * std::cos(radians(3 * h.mean + 6)) - 0.20 * std::cos(radians(4 * h.mean - 63));
    const double fromMiddle = (meanL - 50) * (meanL - 50);
    const double SL = 1 + 0.015 * fromMiddle / std::sqrt(20 + fromMiddle);
    const double SC = 1 + 0.045 * meanC;
    const double SH = 1 + 0.015 * meanC * T;

    const double fromBlue = (h.mean - 275) / 25;
    const double dTheta = 30 * std::exp(-fromBlue * fromBlue);
    const double pC7 = pow7(meanC);
    const double RC = 2 * std::sqrt(pC7 / (pC7 + kPow25To7));
    const double RT = -std::sin(radians(2 * dTheta)) * RC;

    const double l = dL / (weights.kL * SL);
    const double c = dC / (weights.kC * SC);
    const double hue = dH / (weights.kH * SH);
    // Rounding can leave a hair below zero where c and hue nearly cancel.
    return std::sqrt(std::max(0.0, l * l + c * c + hue * hue + RT * c * hue));
}

double deltaEab(const Lab& one, const Lab& other) {
    return std::hypot(one.L - other.L, one.a - other.a, one.b - other.b);
}

DifferenceParts differenceParts(const Lab& wanted, const Lab& other) {
    const double c1 = chroma(wanted);
    const double c2 = chroma(other);
    const double dot = wanted.a * other.a + wanted.b * other.b;
    const double cross = wanted.a * other.b - wanted.b * other.a;
    // ΔH² = ΔE² - ΔL² - ΔC² = 2 (C1 C2 - a1 a2 - b1 b2); its sign is the turn from one hue to the
    // other. For hues less than a right angle apart that subtraction loses half of the digits;
    // cross is the same thing times the root of (C1 C2 + a1 a2 + b1 b2) / 2.
    if (dot > 0) {
        return {other.L - wanted.L, c2 - c1, cross / std::sqrt((c1 * c2 + dot) / 2)};
    }
    const double dH = std::sqrt(2 * std::max(0.0, c1 * c2 - dot));
    return {other.L - wanted.L, c2 - c1, cross < 0 ? -dH : dH};
}

} // namespace otherskein::colour
