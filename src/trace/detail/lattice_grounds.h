#pragma once

#include "trace/detail/lattice.h"

#include <optional>

namespace otherskein::trace::detail {

/// Whether what symbols stand on changes from cell to cell, often and both ways, and hardly ever
/// within one: so in charts of fills whose lines are too faint to see, or not drawn. In pictures it
/// changes anywhere; under text, nowhere.
/// If something else foretold the lines, they may change at few of them, but nowhere else.
[[nodiscard]] bool groundsChangeAtLines(const cv::Mat& bgr, const Lattice& lattice,
                                        const cv::Rect& cells, bool areForetold = false);

/// How much of what is printed in the middle of cells goes on across their lines: 0 where nothing
/// does, the worse of both ways; none where hardly anything is printed in their middles.
[[nodiscard]] std::optional<double> crossingAtLines(const cv::Mat& bgr, const Lattice& lattice,
                                                    const cv::Rect& cells);

/// Whether what is printed in cells ends before their lines, both ways, and hardly anything is
/// printed across these: so do symbols, where no line is drawn, and no text.
[[nodiscard]] bool symbolsEndAtLines(const cv::Mat& bgr, const Lattice& lattice,
                                     const cv::Rect& cells);

} // namespace otherskein::trace::detail
