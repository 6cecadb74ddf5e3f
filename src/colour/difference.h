#pragma once

#include "colour/lab.h"

namespace otherskein::colour {

/// The parametric weights kL, kC, kH of CIEDE2000.
struct Weights {
    double kL = 1;
    double kC = 1;
    double kH = 1;

    bool operator==(const Weights&) const = default;
};

inline constexpr Weights kReferenceWeights{1, 1, 1};
/// Textile practice: a difference in lightness counts half.
inline constexpr Weights kTextileWeights{2, 1, 1};

/// CIEDE2000 colour difference (ISO/CIE 11664-6).
///
/// Units:  CIELAB, D50, 2° observer in; ΔE00, never negative, out. Symmetric to the last bit.
/// Errors: none; all numbers are finite and L lies in 0..100.
/// Rule for opposite hues: the standard's mean hue jumps where two hues are 180° apart. At exactly
///         180° its text takes the plain mean of the two angles, whichever colour comes first.
///         Rounding can push such a pair to either side, so hues within 1e-9° of opposite count as
///         opposite. Sharma's pairs 10 and 14 ask for this. (littleCMS 2.14 has no such rule: Lab
///         77,-8,8 to 73,4,-4 gives it 17.1221 one way and 17.1664 the other; the plain mean
///         gives 17.1664 both ways, the mean on the other side, where rounding throws some
///         programs, 19.2687.)
/// Source: Sharma, Wu & Dalal 2005; held to their Table 1 in tests/colour/difference_test.cpp.
[[nodiscard]] double deltaE00(const Lab& one, const Lab& other,
                              const Weights& weights = kReferenceWeights);

/// CIELAB 1976 colour difference ΔE*ab, the Euclidean distance (ISO/CIE 11664-4).
[[nodiscard]] double deltaEab(const Lab& one, const Lab& other);

/// How `other` differs from `wanted`, in CIELAB (ISO/CIE 11664-4).
struct DifferenceParts {
    double dL = 0; ///< ΔL*: positive is lighter
    double dC = 0; ///< ΔC*ab: positive is more colourful
    double dH =
        0; ///< ΔH*ab: positive is anticlockwise in the a*b* plane (red → yellow → green → blue)
};

[[nodiscard]] DifferenceParts differenceParts(const Lab& wanted, const Lab& other);

} // namespace otherskein::colour
