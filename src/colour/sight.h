#pragma once

#include "colour/lab.h"

namespace otherskein::colour {

/// Through which eyes a colour is looked at.
struct Sight {
    enum class Kind {
        Full,   ///< as it is
        Values, ///< lightness alone: grey of the same L*
        Protan, ///< red weak, to blind at severity 1
        Deutan, ///< green weak
        Tritan  ///< blue weak
    };
    Kind kind = Kind::Full;
    double severity = 1; ///< 0..1, of the three last

    bool operator==(const Sight&) const = default;
};

/// How `lab` looks through such eyes.
/// Source: Machado, Oliveira & Fernandes 2009, "A Physiologically-based Model for Simulation of
/// Color Vision Deficiency", the authors' table of matrices for severities 0, 0.1 … 1 on linear
/// RGB, between which it is interpolated linearly, as they advise. RGB is linear sRGB, not clipped,
/// so a colour outside the screen's range keeps its own place. Errors: severity lies in 0..1
/// (asserted).
[[nodiscard]] Lab seen(const Lab& lab, const Sight& sight);

} // namespace otherskein::colour
