#pragma once

#include "trace/detail/lattice_fit.h"

namespace otherskein::trace::detail {

/// Makes the cells of `found`, which may be half or some times the true ones either way, the page's
/// own: the finest where every line is there.
void decidePitch(const LineMaps& fine, const LineMaps& coarse, FoundLattice& found);

} // namespace otherskein::trace::detail
