#pragma once

#include "trace/detail/lattice.h"
#include "trace/page.h"

#include <optional>

namespace otherskein::trace::detail {

/// A grid drawn again from its PDF, and where it lies there.
struct DrawnAgain {
    QImage picture; ///< Format_BGR888
    Lattice lattice;
    Lattice onPage; ///< the same on the page: more exact than what it was drawn by
};

/// The grid drawn again so that each cell is `cell` px both ways and all begin at the same place of
/// a pixel: cells that are the same then have the same pixels. None where the page is not a PDF's,
/// or shows a picture (a scan), which gets no clearer.
/// `isExact`: the lattice is already, and needs not be looked for in a first drawing.
[[nodiscard]] std::optional<DrawnAgain> drawnAgain(const Page& page, const Lattice& lattice,
                                                   int cell, bool isExact = false);

} // namespace otherskein::trace::detail
