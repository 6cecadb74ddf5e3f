#include "colour/lab.h"

#include <cmath>
#include <numbers>

namespace otherskein::colour {

double chroma(const Lab& lab) {
    return std::hypot(lab.a, lab.b);
}

double hueDegrees(const Lab& lab) {
    if (lab.a == 0 && lab.b == 0) {
        return 0;
    }
    const double degrees = std::atan2(lab.b, lab.a) * 180.0 / std::numbers::pi;
    // A hair below zero rounds up to 360, which is 0 again.
    const double positive = degrees < 0 ? degrees + 360.0 : degrees;
    return positive < 360.0 ? positive : 0.0;
}

} // namespace otherskein::colour
