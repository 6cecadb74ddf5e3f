#include "colourway/coverage.h"

#include <algorithm>
#include <numbers>

namespace otherskein::colourway {

double coverage(const thread::Ground& ground, int strands, double plyWidthMm) {
    const double covered = std::numbers::sqrt2 * strands * plyWidthMm / thread::cellSideMm(ground);
    const double bare = std::max(0.0, 1 - covered);
    return 1 - bare * bare;
}

double usualPlyWidthMm(const thread::Thread& thread) {
    if (thread.finish == thread::Finish::Metallic) {
        return 0.35;
    }
    const QString fibre = thread.fibre.trimmed().toLower();
    if (fibre == QLatin1String("silk")) {
        return 0.35;
    }
    if (fibre == QLatin1String("linen")) {
        return 0.45;
    }
    return fibre == QLatin1String("wool") ? 0.75 : kPlyWidthMm;
}

double PlyWidths::of(const thread::Thread& thread) const {
    const auto measured = measuredMm.find(thread.fibre.trimmed().toLower());
    return measured == measuredMm.end() ? usualPlyWidthMm(thread) : measured->second;
}

std::optional<double> plyWidthFromSample(int strands, double widthMm) {
    const double one = strands > 0 ? widthMm / strands : 0;
    return one >= kLeastPlyWidthMm && one <= kMostPlyWidthMm ? std::optional(one) : std::nullopt;
}

std::optional<int> strandsToCover(const thread::Ground& ground, double plyWidthMm, double share,
                                  int most) {
    for (int strands = 1; strands <= most; ++strands) {
        if (coverage(ground, strands, plyWidthMm) >= share) {
            return strands;
        }
    }
    return std::nullopt;
}

} // namespace otherskein::colourway
