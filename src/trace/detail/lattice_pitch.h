#pragma once

#include "trace/detail/lattice_fit.h"

namespace otherskein::trace::detail {

/// Makes the cells of `found`, which may be half or some times the true ones either way, the page's
/// own: the finest where every line is there.
void decidePitch(const LineMaps& fine, const LineMaps& coarse, FoundLattice& found);

/// What goes on through most of the page at the lines of a lattice, and half a cell beside them:
/// lines do, symbols do not.
struct LineEvidence {
    double atLines = 0;
    double between = 0;

    [[nodiscard]] double stands() const { return atLines - between; }
};
[[nodiscard]] LineEvidence standOut(const LineMaps& maps, const Lattice& lattice,
                                    const cv::Rect& area, bool isRow);

/// How many lines more repeat over `area` than the lattice has there, by the power of what repeats
/// so often. `share`: how much of it is as often as the lattice has it, 0 to 1.
[[nodiscard]] int slipOf(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                         bool isRow, double* share);

/// Whether the page repeats over `area` as the lattice does, both ways, and some of its lines at
/// least go through: so in charts whose other lines are too faint or hidden.
[[nodiscard]] bool repeatsThrough(const LineMaps& maps, const Lattice& lattice,
                                  const cv::Rect& area);

/// Whether at its lines there is more to see than between them, both ways: not so in lines of text,
/// nor in a table whose columns are of any width.
[[nodiscard]] bool showsLines(const LineMaps& maps, const Lattice& grid);

} // namespace otherskein::trace::detail
