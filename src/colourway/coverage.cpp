#include "colourway/coverage.h"

#include <algorithm>
#include <numbers>

namespace otherskein::colourway {

double coverage(const thread::Ground& ground, int strands, double plyWidthMm) {
    const double covered = std::numbers::sqrt2 * strands * plyWidthMm / thread::cellSideMm(ground);
    const double bare = std::max(0.0, 1 - covered);
    return 1 - bare * bare;
}

} // namespace otherskein::colourway
