#include "colourway/fabric_fit.h"

#include "colourway/coverage.h"

#include <algorithm>
#include <numbers>

namespace otherskein::colourway {

namespace {

constexpr double kRoundingMm = 1e-6; // 18 in is 18 in, however it was converted
constexpr double kCrowded = 1.3;

thread::Ground clothOf(int count, int over) {
    thread::Ground ground;
    ground.count = count;
    ground.over = over;
    return ground;
}

bool holds(const Extent& piece, const Extent& needed) {
    return needed.widthMm <= piece.widthMm + kRoundingMm &&
           needed.heightMm <= piece.heightMm + kRoundingMm;
}

Extent turned(const Extent& one) {
    return {one.heightMm, one.widthMm};
}

Extent lack(const Extent& needed, const Extent& piece) {
    return {std::max(0.0, needed.widthMm - piece.widthMm),
            std::max(0.0, needed.heightMm - piece.heightMm)};
}

} // namespace

Extent stitchedExtent(int columns, int rows, const thread::Ground& ground) {
    const double side = thread::cellSideMm(ground);
    return {columns * side, rows * side};
}

Extent withMargin(const Extent& stitched, double marginMm) {
    return {stitched.widthMm + 2 * marginMm, stitched.heightMm + 2 * marginMm};
}

FitAnswer fitOf(const Extent& needed, const Extent& piece) {
    if (holds(piece, needed)) {
        return {};
    }
    if (holds(turned(piece), needed)) {
        return {Fit::FitsTurned, 0, 0, true};
    }
    const Extent straight = lack(needed, piece);
    const Extent across = lack(needed, turned(piece));
    const bool turn = across.widthMm + across.heightMm < straight.widthMm + straight.heightMm;
    const Extent& better = turn ? across : straight;
    return {Fit::TooSmall, better.widthMm, better.heightMm, turn};
}

std::optional<int> coarsestThatCovers(int over, int strands, double plyWidthMm, double share) {
    for (int count = thread::limits::kLeastCount; count <= thread::limits::kMostCount; ++count) {
        if (coverage(clothOf(count, over), strands, plyWidthMm) >= share) {
            return count;
        }
    }
    return std::nullopt;
}

std::optional<int> coarsestThatFits(int columns, int rows, int over, double marginMm,
                                    const Extent& piece) {
    for (int count = thread::limits::kLeastCount; count <= thread::limits::kMostCount; ++count) {
        const Extent needed =
            withMargin(stitchedExtent(columns, rows, clothOf(count, over)), marginMm);
        if (fitOf(needed, piece).fit != Fit::TooSmall) {
            return count;
        }
    }
    return std::nullopt;
}

std::optional<int> finestUncrowded(int over, int strands, double plyWidthMm) {
    for (int count = thread::limits::kMostCount; count >= thread::limits::kLeastCount; --count) {
        const double side = thread::cellSideMm(clothOf(count, over));
        if (std::numbers::sqrt2 * strands * plyWidthMm <= kCrowded * side) {
            return count;
        }
    }
    return std::nullopt;
}

} // namespace otherskein::colourway
