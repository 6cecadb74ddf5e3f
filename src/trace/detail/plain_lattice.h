#pragma once

#include "trace/detail/lattice_samples.h"

#include <optional>
#include <span>

namespace otherskein::trace::detail {

/// The plainest map from lattice to page that explains the samples as well as `toPage` does:
/// upright as a page is printed, else turned and sheared as a scan is, else `toPage` itself. A map
/// that may bend every way follows symbols that lie beside lines; one that may not does not. None
/// where the samples are all of one way: there are no cells.
[[nodiscard]] std::optional<cv::Matx33d> plainestMap(std::span<const LatticeSample> samples,
                                                     const cv::Matx33d& toPage);

/// The map that fits the samples best, turned and sheared, or projective where that clearly fits
/// better; samples that lie far from the others' map hardly count. None when there are too few.
[[nodiscard]] std::optional<cv::Matx33d> settledMap(std::span<const LatticeSample> samples,
                                                    const cv::Matx33d& toPage);

} // namespace otherskein::trace::detail
