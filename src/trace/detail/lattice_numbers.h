#pragma once

#include "trace/detail/line_map.h"
#include "trace/page.h"

#include <optional>

namespace otherskein::trace::detail {

/// The grid that numbers along two of its edges tell, where no lines do: their places tell its
/// pitch exactly, what is printed where its lines are between them and where it ends. None unless
/// what is printed in its cells keeps within them.
[[nodiscard]] std::optional<Lattice> gridOfNumbers(const cv::Mat& bgr, const LineMaps& fine,
                                                   const std::vector<Word>& words);

/// Whether two lattices have their lines at the same places, over the cells of the first.
[[nodiscard]] bool haveSameLines(const Lattice& grid, const Lattice& other);

} // namespace otherskein::trace::detail
