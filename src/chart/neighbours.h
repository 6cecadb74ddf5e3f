#pragma once

#include "chart/motifs.h"

#include <span>
#include <vector>

namespace otherskein::chart {

/// Two areas of a chart that touch, or face each other across bare ground.
struct Neighbours {
    std::size_t one = 0; ///< one < other
    std::size_t other = 0;
    /// Sides of cells that both share, and corners where only corners meet (neither of the two
    /// cells beside them belongs to one of the two areas), each counted half.
    double border = 0;
    /// Places where they face each other: two stitches in one row or one column with nothing but g
    /// bare stitches between them, 1 ≤ g ≤ within, each counted 1 / (1 + g): across bare ground an
    /// edge is seen, but less. A third area between hides both from each other; areas that no row
    /// and no column shows to each other, since they lie aslant, do not face. Rounded to 2⁻⁴⁰ a
    /// place.
    double facing = 0;

    bool operator==(const Neighbours&) const = default;
};

/// Bare stitches across which two areas still count as neighbours: as far as the eye compares two
/// houses of a row (ours).
inline constexpr int kWithin = 6;

/// All pairs of neighbours, by `one`, then `other`. `areaOf` holds columns × rows labels below
/// `areas`, or kNoMotif for bare ground (asserted). Linear in the cells, for any `within`; the same
/// for a mirrored or turned chart.
[[nodiscard]] std::vector<Neighbours> neighboursOf(std::span<const std::uint32_t> areaOf,
                                                   int columns, int rows, std::size_t areas,
                                                   int within);

/// The same for the rows of a key: which thread touches which, and for how long.
[[nodiscard]] std::vector<Neighbours> neighboursOf(const Grid& grid, std::size_t keyRows,
                                                   int within = 0);
[[nodiscard]] std::vector<Neighbours> neighboursOf(const Motifs& motifs, int within = kWithin);

} // namespace otherskein::chart
