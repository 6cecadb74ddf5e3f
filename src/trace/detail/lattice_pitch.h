#pragma once

#include "trace/detail/lattice_fit.h"

namespace otherskein::trace::detail {

/// Makes the cells of `found`, which may be half or some times the true ones either way, the page's
/// own: the finest where every line is there.
void decidePitch(const LineMaps& fine, const LineMaps& coarse, FoundLattice& found);

/// Whether at its lines there is more to see than between them, both ways: not so in lines of text,
/// nor in a table whose columns are of any width.
[[nodiscard]] bool showsLines(const LineMaps& maps, const Lattice& grid);

} // namespace otherskein::trace::detail
