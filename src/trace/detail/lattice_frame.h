#pragma once

#include "trace/detail/line_map.h"

#include <optional>

namespace otherskein::trace::detail {

/// The frame around a grid whose other lines do not show everywhere: a rectangle of four lines, on
/// lines of the lattice, each of which ends where the others begin. `cells` is what is known of the
/// grid, and may have a row of numbers too many. None where there is no such frame. `mayHaveTicks`:
/// lines may go on behind it as far as ticks do, where it leaves cells out.
[[nodiscard]] std::optional<cv::Rect> frameAround(const cv::Mat& bgr, const LineMaps& maps,
                                                  const Lattice& lattice, const cv::Rect& cells,
                                                  bool mayHaveTicks = false);

/// `cells` less what lies beyond where nearly all lines end that are seen, as at a side whose
/// border was not told from what is printed, or lies, behind it.
[[nodiscard]] cv::Rect endedByLines(const cv::Mat& bgr, const LineMaps& maps,
                                    const Lattice& lattice, const cv::Rect& cells);

/// Whether the lines that go through all of `cells`, frame to frame, are every fifth or tenth only,
/// and two at least both ways: a chart that prints no others.
[[nodiscard]] bool hasTenthLines(const LineMaps& maps, const Lattice& lattice,
                                 const cv::Rect& cells, bool mayBeFifths = true);

} // namespace otherskein::trace::detail
