#include "colour/difference_bound.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace otherskein::colour {

namespace {

constexpr double kMostSL = 1.75;
// Bounds of the hue factor T: its values at every 0.002° lie in 0.36205..1.57248, and it changes by
// at most 0.17 + 0.48 + 0.96 + 0.80 = 2.41 a radian, so by less than 1e-4 between two of them.
constexpr double kLeastT = 0.3619;
constexpr double kMostT = 1.5726;
constexpr double kPow25To7 = 6103515625.0;
constexpr double kCos275 = 0.087155742747658;
constexpr double kSin275 = -0.996194698091746;
/// Above the sine of the 1e-9° within which two hues count as opposite.
constexpr double kSineNearOpposite = 1e-10;
/// Allows for rounding in the bounds themselves, far below any printed digit.
constexpr double kSlack = 1e-9;

double pow7(double x) {
    const double x2 = x * x;
    return x2 * x2 * x2 * x;
}

double saturation(double meanChroma) {
    const double c7 = pow7(meanChroma);
    return std::sqrt(c7 / (c7 + kPow25To7));
}

/// 1 + G.
double stretchAt(double meanChroma) {
    return 1 + 0.5 * (1 - saturation(meanChroma));
}

double lightnessScale(double meanL) {
    const double middle2 = (meanL - 50) * (meanL - 50);
    return 1 + 0.015 * middle2 / std::sqrt(20 + middle2);
}

struct Range {
    double least;
    double most;
};

/// How far `value` lies outside the range; 0 inside.
double outside(const Range& range, double value) {
    return std::max({range.least - value, value - range.most, 0.0});
}

Range magnitude(const Range& range) {
    return {outside(range, 0), std::max(std::abs(range.least), std::abs(range.most))};
}

Range length(const Range& x, const Range& y) {
    return {std::sqrt(x.least * x.least + y.least * y.least),
            std::sqrt(x.most * x.most + y.most * y.most)};
}

/// a·stretch for every a and stretch of their ranges; stretch >= 1.
Range stretched(const Range& a, const Range& stretch) {
    return {std::min(a.least * stretch.least, a.least * stretch.most),
            std::max(a.most * stretch.least, a.most * stretch.most)};
}

Range product(const Range& x, const Range& y) {
    const auto [least, most] =
        std::minmax({x.least * y.least, x.least * y.most, x.most * y.least, x.most * y.most});
    return {least, most};
}

Range difference(const Range& x, const Range& y) {
    return {x.least - y.most, x.most - y.least};
}

/// The least of c² + h² - r·c·h over all |c| >= leastC and |h| in `h`, for 0 <= r < 2.
double leastForm(double leastC, const Range& h, double r) {
    if (leastC < r * h.least / 2) {
        return h.least * h.least * (1 - r * r / 4); // the best c lies above leastC
    }
    const double best = std::clamp(r * leastC / 2, h.least, std::max(h.least, h.most));
    return leastC * leastC + best * best - r * leastC * best;
}

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

/// The largest sin(2Δθ) of any mean hue that lies at least this many degrees off 275°, rounded up.
double turnFarFromBlue(double degrees) {
    const double off = std::max(0.0, degrees - 1e-6) / 25;
    return std::sin(radians(60 * std::exp(-off * off))) + 1e-9;
}

/// `turnFarFromBlue` by the cosine of the angle off 275°, without a call to acos and exp: each
/// entry holds for its whole step, so it is never too small.
class TurnTable {
  public:
    TurnTable() {
        for (std::size_t i = 0; i < m_turns.size(); ++i) {
            const double mostCosine = std::min(1.0, (static_cast<double>(i) + 1) / kScale - 1);
            m_turns[i] = turnFarFromBlue(std::acos(mostCosine) * 180 / std::numbers::pi - 1e-3);
        }
    }

    [[nodiscard]] double at(double cosine) const {
        const double step = std::clamp((cosine + 1) * kScale, 0.0, kSteps - 1.0);
        return m_turns[static_cast<std::size_t>(step)];
    }

  private:
    static constexpr int kSteps = 512;
    static constexpr double kScale = kSteps / 2.0;
    std::array<double, kSteps> m_turns{};
};

const TurnTable& turnTable() {
    static const TurnTable table;
    return table;
}

/// CIEDE2000's T of the hue whose cosine and sine these are.
double hueFactor(double cosH, double sinH) {
    constexpr double kCos30 = 0.86602540378443865;
    constexpr double kCos6 = 0.99452189536827333;
    constexpr double kSin6 = 0.10452846326765347;
    constexpr double kCos63 = 0.45399049973954680;
    constexpr double kSin63 = 0.89100652418836790;
    const double cos2 = 2 * cosH * cosH - 1;
    const double sin2 = 2 * cosH * sinH;
    const double cos3 = cos2 * cosH - sin2 * sinH;
    const double sin3 = sin2 * cosH + cos2 * sinH;
    const double cos4 = 2 * cos2 * cos2 - 1;
    const double sin4 = 2 * cos2 * sin2;
    return 1 - 0.17 * (cosH * kCos30 + sinH * 0.5) + 0.24 * cos2 +
           0.32 * (cos3 * kCos6 - sin3 * kSin6) - 0.20 * (cos4 * kCos63 + sin4 * kSin63);
}

/// ΔH'² of two colours from the dot and cross product of their (a', b). For hues less than a right
/// angle apart, C1·C2 - dot would lose its digits; it is cross²/(C1·C2 + dot). That matters since
/// the mixed term is linear in ΔH': an error of 1e-12 in ΔH'² would move it by 1e-6.
double squaredHueDifference(double c1c2, double dot, double cross) {
    return dot > 0 ? 2 * cross * cross / (c1c2 + dot) : 2 * std::max(0.0, c1c2 - dot);
}

double degreesOffBlue(double hueDegrees) {
    return std::abs(std::remainder(hueDegrees - 275, 360.0));
}

} // namespace

DifferenceBound::DifferenceBound(const Lab& wanted, const Weights& weights)
    : m_wanted(wanted), m_weights(weights), m_chroma(chroma(wanted)) {
    // 1 + G lies in 1..1.5, so these two bound every direction that the stretched colour can have.
    const Lab stretchedMost{wanted.L, 1.5 * wanted.a, wanted.b};
    constexpr double kRightAngle = 90;
    m_mostTurn = m_chroma == 0
                     ? 0 // no hue, so no hue difference and no mixed term
                     : turnFarFromBlue(std::min(degreesOffBlue(hueDegrees(wanted)),
                                                degreesOffBlue(hueDegrees(stretchedMost))) -
                                       kRightAngle);
    constexpr int kSteps = 36;
    for (int step = 0; step < kSteps; ++step) {
        const double middle = 95 + step * 360.0 / kSteps;
        const HalfPlane one{std::cos(radians(middle)), std::sin(radians(middle)),
                            turnFarFromBlue(degreesOffBlue(middle) - kRightAngle)};
        const bool holdsWanted = one.x * wanted.a + one.y * wanted.b > kSlack &&
                                 one.x * stretchedMost.a + one.y * wanted.b > kSlack;
        if (holdsWanted && one.turn < m_mostTurn) {
            m_halfPlanes.push_back(one);
        }
    }
    std::ranges::sort(m_halfPlanes, {}, &HalfPlane::turn);
}

DifferenceBound::Reach DifferenceBound::reach(double limit) const {
    const double dL = limit * m_weights.kL * kMostSL + kSlack;
    Reach reach{m_wanted.L - dL, m_wanted.L + dL, std::numeric_limits<double>::infinity()};
    const double k = limit * m_weights.kC;
    if (0.045 * k >= 0.99) {
        return reach;
    }
    const double stretched = 1.5 * m_chroma;
    const double M = stretched + k * (1 + 0.045 * stretched) / (1 - 0.045 * k);
    const double r = 2 * saturation(M) * m_mostTurn;
    const double S =
        std::max(m_weights.kC * (1 + 0.045 * M), m_weights.kH * (1 + 0.015 * kMostT * M));
    reach.radiusAb = limit * S / std::sqrt(1 - r / 2) + kSlack;
    return reach;
}

bool DifferenceBound::mayBeWithin(const Lab& other, double limit) const {
    const double limit2 = limit * limit + kSlack;
    const double dL = other.L - m_wanted.L;
    const double l = dL / (m_weights.kL * lightnessScale((other.L + m_wanted.L) / 2));
    const double left2 = limit2 - l * l;
    if (left2 < 0) {
        return false;
    }

    const double otherChroma = std::sqrt(other.a * other.a + other.b * other.b);
    const double stretch = stretchAt((m_chroma + otherChroma) / 2);
    const double a1 = stretch * m_wanted.a;
    const double a2 = stretch * other.a;
    const double b1 = m_wanted.b;
    const double b2 = other.b;
    const double C1 = std::sqrt(a1 * a1 + b1 * b1);
    const double C2 = std::sqrt(a2 * a2 + b2 * b2);
    const double meanC = (C1 + C2) / 2;

    const double c = (C2 - C1) / (m_weights.kC * (1 + 0.045 * meanC));
    const double cross = a1 * b2 - b1 * a2;
    const double dH2 = squaredHueDifference(C1 * C2, a1 * a2 + b1 * b2, cross);

    // The bisector of the two hues is the direction of the sum of their unit vectors.
    const double x = a1 * C2 + a2 * C1;
    const double z = b1 * C2 + b2 * C1;
    const double length = std::sqrt(x * x + z * z);
    const bool bisectorIsSure = length > 1e-3 * C1 * C2 && length > 0;
    const double cosH = bisectorIsSure ? x / length : 0;
    const double sinH = bisectorIsSure ? z / length : 0;
    const double T = bisectorIsSure ? hueFactor(cosH, sinH) + kSlack : kMostT;
    const double h = std::sqrt(dH2) / (m_weights.kH * (1 + 0.015 * meanC * T));
    if (!bisectorIsSure) {
        const Range larger{h, std::numeric_limits<double>::infinity()};
        return leastForm(std::abs(c), larger, 2 * saturation(meanC) * m_mostTurn) <= left2 + kSlack;
    }
    // RT <= 0, so the mixed term can only help where chroma and hue differ in the same direction.
    const double r =
        c * cross > 0 ? 2 * saturation(meanC) * turnTable().at(cosH * kCos275 + sinH * kSin275) : 0;
    return c * c + h * h - r * std::abs(c) * h <= left2 + kSlack;
}

double DifferenceBound::leastIn(const LabBox& box) const {
    const double dL = outside({box.leastL, box.mostL}, m_wanted.L);
    const double SL = std::max(lightnessScale((m_wanted.L + box.leastL) / 2),
                               lightnessScale((m_wanted.L + box.mostL) / 2));
    const double l = dL / (m_weights.kL * SL);

    const Range a{box.leastA, box.mostA};
    const Range b{box.leastB, box.mostB};
    const Range chromas = length(magnitude(a), magnitude(b));
    const Range stretch{stretchAt((m_chroma + chromas.most) / 2),
                        stretchAt((m_chroma + chromas.least) / 2)};
    const Range a1 = stretched({m_wanted.a, m_wanted.a}, stretch);
    const Range a2 = stretched(a, stretch);
    const Range b1{m_wanted.b, m_wanted.b};
    const Range C1 = length(magnitude(a1), magnitude(b1));
    const Range C2 = length(magnitude(a2), magnitude(b));
    const double M = (C1.most + C2.most) / 2;

    const auto holdsBox = [&](const HalfPlane& one) {
        return std::min(one.x * a2.least, one.x * a2.most) +
                   std::min(one.y * b.least, one.y * b.most) >
               kSlack;
    };
    const auto best = std::ranges::find_if(m_halfPlanes, holdsBox);
    const double turn = best == m_halfPlanes.end() ? m_mostTurn : best->turn;

    const double SC = m_weights.kC * (1 + 0.045 * M);
    const double SH = m_weights.kH * (1 + 0.015 * kMostT * M);
    const Range dC = difference(C2, C1);
    const double c = outside(dC, 0) / SC;
    const Range turnTowards = difference(product(a1, b), product(b1, a2));
    const double cross = outside(turnTowards, 0);
    const double h = cross > 0 ? cross / std::sqrt(C1.most * C2.most) / SH : 0;
    // RT <= 0, so the mixed term cannot help where chroma and hue surely differ in opposite
    // directions. ΔH' has the sign of the cross product, but not within 1e-9° of opposite hues.
    const double unsure = product(a1, a2).least + product(b1, b).least > 0
                              ? 0
                              : kSineNearOpposite * C1.most * C2.most;
    const bool opposed = (dC.most <= 0 && turnTowards.least >= unsure) ||
                         (dC.least >= 0 && turnTowards.most <= -unsure);
    const double r = opposed ? 0 : 2 * saturation(M) * turn;
    const double da = stretch.least * outside(a, m_wanted.a);
    const double db = outside(b, m_wanted.b);
    // ΔH'² is what is left of the squared distance in the plane without ΔC'².
    const double farA =
        stretch.most * std::max(std::abs(a.least - m_wanted.a), std::abs(a.most - m_wanted.a));
    const double farB = std::max(std::abs(b.least - m_wanted.b), std::abs(b.most - m_wanted.b));
    const double leastDC = outside(dC, 0);
    const double leastSH = m_weights.kH * (1 + 0.015 * kLeastT * (C1.least + C2.least) / 2);
    // The difference of squares can lose its digits; the slack is far above that rounding.
    constexpr double kLostDigits = 1e-12;
    const double farthest2 = farA * farA + farB * farB;
    const double mostDH2 = std::max(0.0, farthest2 - leastDC * leastDC) +
                           kLostDigits * (farthest2 + C1.most * C1.most + C2.most * C2.most);
    const double mostH = std::sqrt(mostDH2) / leastSH + kSlack;
    const double S = std::max(SC, SH);
    const double byDistance = (1 - r / 2) * (da * da + db * db) / (S * S);
    return std::sqrt(
        std::max(0.0, l * l + std::max(byDistance, leastForm(c, {h, mostH}, r)) - kSlack));
}

} // namespace otherskein::colour
