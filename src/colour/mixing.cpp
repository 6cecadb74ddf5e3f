#include "colour/mixing.h"

#include "colour/conversion.h"

#include <array>
#include <cassert>

namespace otherskein::colour {

Lab mixed(std::span<const Share> shares) {
    Xyz sum;
    double total = 0;
    for (const Share& share : shares) {
        assert(share.weight >= 0);
        const Xyz xyz = xyzFromLab(share.lab);
        sum.X += share.weight * xyz.X;
        sum.Y += share.weight * xyz.Y;
        sum.Z += share.weight * xyz.Z;
        total += share.weight;
    }
    assert(total > 0);
    return labFromXyz({sum.X / total, sum.Y / total, sum.Z / total});
}

Xyz mixedXyz(const Xyz& one, int strandsOfOne, const Xyz& other, int strandsOfOther) {
    const double p = strandsOfOne;
    const double q = strandsOfOther;
    const double total = p + q;
    return {(p * one.X + q * other.X) / total, (p * one.Y + q * other.Y) / total,
            (p * one.Z + q * other.Z) / total};
}

Lab apparentColour(const Lab& thread, const Lab& ground, double coverage) {
    const std::array<Share, 2> shares{Share{thread, coverage}, Share{ground, 1 - coverage}};
    return mixed(shares);
}

} // namespace otherskein::colour
