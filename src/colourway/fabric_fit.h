#pragma once

#include "thread/ground.h"

#include <optional>

namespace otherskein::colourway {

// How large a chart gets on a ground, and whether a piece of it is large enough. All lengths in mm.

inline constexpr double kMmPerInch = 25.4;
/// Bare cloth left on every side for hoop and frame: 3 in (common practice, no source).
inline constexpr double kUsualMarginMm = 3 * kMmPerInch;

struct Extent {
    double widthMm = 0;
    double heightMm = 0;

    bool operator==(const Extent&) const = default;
};

/// A quarter of a yard or metre of wide cloth as shops cut it, 18 × 27 in (common practice, no
/// source; quilters' cotton is cut 18 × 22 in: measure yours).
inline constexpr Extent kFatQuarter{18 * kMmPerInch, 27 * kMmPerInch};

/// Of `columns` × `rows` stitches: each as wide as its cell.
[[nodiscard]] Extent stitchedExtent(int columns, int rows, const thread::Ground& ground);
[[nodiscard]] Extent withMargin(const Extent& stitched, double marginMm);

enum class Fit { Fits, FitsTurned, TooSmall };
struct FitAnswer {
    Fit fit = Fit::Fits;
    /// What the piece lacks along the chart's width and height, laid the better way; both 0 unless
    /// it is too small.
    double lacksWidthMm = 0;
    double lacksHeightMm = 0;
    bool turned = false; ///< the better way lays the chart's width along the piece's height
};
/// Whether `needed` can be cut from or laid on `piece`, as it lies or turned by a quarter.
[[nodiscard]] FitAnswer fitOf(const Extent& needed, const Extent& piece);

/// The coarsest count, worked over `over`, on which so many strands cover `share`; every finer one
/// covers better. None when even the finest does not.
[[nodiscard]] std::optional<int> coarsestThatCovers(int over, int strands, double plyWidthMm,
                                                    double share);
/// The coarsest count on which the chart with its margin fits the piece; every finer one fits too.
[[nodiscard]] std::optional<int> coarsestThatFits(int columns, int rows, int over, double marginMm,
                                                  const Extent& piece);
/// The finest count before strands crowd: legs much wider than their cell are hard to pull through
/// and bulge. √2·n·w may be at most 1.3 cells (ours, no source: two strands on 14 over 1 come to
/// 0.6, on 36 over 2 to 0.8, on 28 over 1 to 1.25).
[[nodiscard]] std::optional<int> finestUncrowded(int over, int strands, double plyWidthMm);

} // namespace otherskein::colourway
