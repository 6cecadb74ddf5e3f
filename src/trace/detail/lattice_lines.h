#pragma once

#include "trace/detail/line_map.h"

#include <optional>
#include <vector>

namespace otherskein::trace::detail {

/// The lines of one way over an area, and how far they are apart.
struct Way {
    LineSheet sheet;
    double unit = 0; ///< px from line to line of the lattice as it was found
    int lines = 0;   ///< cells across
};

/// Of many places: what most have, or what all have together where lines show only here and there,
/// as at the borders of colours.
enum class Summary { Low, Mean };

/// What shows at `start`, `start` + `step` … (in units), at each the least of the kinds of place
/// along it, `period` (in units of the other way) apart from one to the next of a kind. A line goes
/// on through all of them; symbols, however regular, end before the border of their cell.
[[nodiscard]] std::vector<double> shownAt(const Way& way, double start, double step, double period,
                                          int kinds, Summary summary);

/// What shows at each place across, lines that stand out far from the others cut down.
[[nodiscard]] std::vector<double> levelProfile(const Way& way);

/// What goes on through most of the page at the lines of a lattice, and half a cell beside them:
/// lines do, symbols do not.
struct LineEvidence {
    double atLines = 0;
    double between = 0;

    [[nodiscard]] double stands() const { return atLines - between; }
};
[[nodiscard]] LineEvidence standOut(const LineMaps& maps, const Lattice& lattice,
                                    const cv::Rect& area, bool isRow);

/// Few lines that go through most of the page, as bold ones where no others are drawn, and the
/// lattice that has them all at whole cells: its line i lies at `start` + i·`step` of the old one.
struct StrongLines {
    double least = 0; ///< of 255, that such a line shows at least
    double start = 0;
    double step = 1;
    bool areAlone = false; ///< no others show at the old one's, as where it lies on symbols
};
/// Counted from the first line of `area`. None where there are many lines or fewer than `fewest`.
[[nodiscard]] std::optional<StrongLines> strongLinesOf(const LineMaps& maps, const Lattice& lattice,
                                                       const cv::Rect& area, bool isRow,
                                                       std::size_t fewest = 3);

/// How many lines more repeat over `area` than the lattice has there, by the power of what repeats
/// so often. `share`: how much of it is as often as the lattice has it, 0 to 1.
[[nodiscard]] int slipOf(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area,
                         bool isRow, double* share);

/// Whether the page repeats over `area` as the lattice does, both ways, and some of its lines at
/// least go through: so in charts whose other lines are too faint or hidden.
[[nodiscard]] bool repeatsThrough(const LineMaps& maps, const Lattice& lattice,
                                  const cv::Rect& area);

/// Whether there is next to nothing at every second or third line: its cells are parts of others.
[[nodiscard]] bool someAreEmpty(const LineMaps& maps, const Lattice& lattice, const cv::Rect& area);

/// Whether at its lines there is more to see than between them, both ways: not so in lines of text,
/// nor in a table whose columns are of any width.
[[nodiscard]] bool showsLines(const LineMaps& maps, const Lattice& grid);

} // namespace otherskein::trace::detail
