#pragma once

#include "colour/difference.h"

#include <vector>

namespace otherskein::colour {

/// What can be said about ΔE00 from one wanted colour without trigonometry: searches use it to pass
/// over colours that cannot be near, and ask `deltaE00` only for the rest. Every bound is proved
/// here; tests hold each to the clear evaluator over random colours.
///
/// Write l, c, h for the three weighted terms of CIEDE2000 (lightness, chroma, hue), so that
/// ΔE00² = l² + c² + h² + RT·c·h. RT = -sin(2Δθ)·RC, with 0 <= Δθ <= 30° and 0 <= RC < 2, so
/// |RT| <= RC·sin 60° < 1.7321 < 2 and the last three terms are a positive form of c and h.
/// Δθ = 30°·exp(-((h̄' - 275°)/25°)²) fades fast away from blue. The mean hue h̄' bisects the smaller
/// angle between the two colours, so it lies within 90° of the wanted hue, and within any
/// half-plane that holds both colours: either way a bound on sin(2Δθ), "turn" below. (For opposite
/// hues the bisector may point either way, but then no half-plane holds both inside, and both ways
/// are 90° off. The formula does not fold h̄' - 275° at 0/360°; folded it is smaller, so the bound
/// is the larger for it.) A neutral has no hue: then ΔH' = 0 and the mixed term with it.
class DifferenceBound {
  public:
    explicit DifferenceBound(const Lab& wanted, const Weights& weights = kReferenceWeights);

    [[nodiscard]] const Lab& wanted() const { return m_wanted; }
    [[nodiscard]] const Weights& weights() const { return m_weights; }

    /// A square in a*b* and a range in L* that hold every colour within `limit` of the wanted one.
    struct Reach {
        double leastL;
        double mostL;
        double radiusAb; ///< |Δa*| and |Δb*| are at most this; infinite when nothing can be said
    };

    /// Proof. Lightness: l² <= ΔE00² since the form in c and h is not negative, so
    /// |ΔL| <= limit·kL·SL; SL <= 1.75 for mean L in 0..100 (it is largest at the ends: 1 +
    /// 0.015·2500/√2520 = 1.74702). Plane: for any h, c² + h² + RT·c·h >= c²(1 - RT²/4) >= c²/4, so
    /// |ΔC'| <= 2·limit·kC·SC with SC = 1 + 0.045·C'm, and C'm <= C1' + |ΔC'|/2. Solved for |ΔC'|
    /// (k = limit·kC, 0.045·k < 1): C'm <= C1' + k(1 + 0.045·C1')/(1 - 0.045·k) =: M. Also c² + h²
    /// + RT·c·h >= (1 - |RT|/2)(c² + h²), SC <= 1 + 0.045·M, SH <= 1 + 0.015·1.5726·M (the hue
    /// factor T <= 1.5726, bounded in the .cpp) and |RT| <= turn·RC(M), so the distance in
    /// the a'b plane is at most limit·S/√(1 - |RT|/2), S the larger of kC·SC and kH·SH. Last, a' =
    /// (1 + G)a with one G >= 0 for both colours of a pair, so |Δa| <= |Δa'|; b is not stretched;
    /// and C1'
    /// <= 1.5·C1 since G <= 0.5.
    [[nodiscard]] Reach reach(double limit) const;

    /// All colours whose coordinates lie in these ranges.
    struct LabBox {
        double leastL, mostL;
        double leastA, mostA;
        double leastB, mostB;
    };

    /// No colour in `box` is nearer to the wanted one than this.
    ///
    /// Proof. Each term is taken at its least over the box. Lightness: SL grows with |mean L - 50|,
    /// so it is largest at an end of the range. G falls with chroma, so its range follows from the
    /// least and largest chroma; then a' = (1 + G)a gives ranges of C1', C2' and of the distance in
    /// the a'b plane, and the form is at least (1 - r/2)(distance/S)², S and r as in `reach` at the
    /// largest mean chroma. It is also at least its least value over the c and h that the box
    /// allows: |h| from ΔH' = 2√(C1'C2')·sin(Δh/2)
    /// >= √(C1'C2')·sin Δh = |cross product|/√(C1'C2'), the cross product bounded over the box;
    /// and |h| <= √(distance² - ΔC'²)/SH at the farthest distance, the least ΔC' and the least SH
    /// (T >= 0.3619). r takes the least turn of a half-plane that holds the wanted colour and the
    /// whole box. Where c and h have opposite signs over the whole box, RT·c·h >= 0 and r = 0. The
    /// sign of h is that of the cross product, except for hues within 1e-9° of opposite, where it
    /// follows the hue angles (the rule in difference.h): there |cross| < 1.8e-11·C1'C2' and the
    /// dot product is negative, so the sign is trusted only beyond 1e-10·C1'C2', or where the dot
    /// product is positive over the whole box.
    [[nodiscard]] double leastIn(const LabBox& box) const;

    /// False proves ΔE00(wanted, other) > limit. Several times faster than the clear evaluator
    /// (square roots, no angle) and sharp: all terms but RT are exact.
    ///
    /// Proof: ΔH'² = 2(C1'C2' - a1'a2' - b1b2), worked from the cross product where that difference
    /// would be rounded away (its root is multiplied by c). The mean hue bisects the two, so its
    /// cosine and sine are those of the sum of the two unit vectors, and T is a polynomial of them.
    /// RT is bounded by a table of sin(2Δθ) over the cosine of the angle off 275°, each entry taken
    /// at the near end of its step, and by 0 where c·h < 0, since RT <= 0. Nearly opposite hues (a
    /// short sum) fall back to T <= 1.5726, which bounds |h| below, and the least of the form over
    /// all larger |h|.
    [[nodiscard]] bool mayBeWithin(const Lab& other, double limit) const;

  private:
    Lab m_wanted;
    Weights m_weights;
    double m_chroma;

    /// Colours on the side of (x, y) of the line through grey, and the largest sin(2Δθ) that a mean
    /// hue among them can have.
    struct HalfPlane {
        double x;
        double y;
        double turn;
    };
    std::vector<HalfPlane> m_halfPlanes; ///< that hold the wanted colour, least turn first
    double m_mostTurn;                   ///< whatever the other colour
};

} // namespace otherskein::colour
