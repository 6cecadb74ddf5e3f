#pragma once

#include "chart/chart.h"
#include "chart/neighbours.h"

#include <vector>

namespace otherskein::colourway {

/// What takes one thread: a row of the key, or a motif.
enum class By { Colour, Motif };

struct Part {
    chart::KeyIndex key = 0; ///< its row of the key (a motif never crosses rows)
    int stitches = 0;
    chart::Cell first;    ///< its first cell; names a motif
    QString label;        ///< the motif's name, empty when it has none; of a key row, its symbol
    double lineCells = 0; ///< length of its backstitch, in cells (key rows only)
    double bareLineCells = 0; ///< of it, what lies on bare ground on both sides

    bool operator==(const Part&) const = default;
    /// What it weighs: stitches, and backstitch as if a cell's length were half a stitch.
    [[nodiscard]] double size() const { return stitches + 0.5 * lineCells; }
};

/// A chart taken apart for choosing threads.
struct Parts {
    By by = By::Colour;
    std::vector<Part> parts;
    std::vector<chart::Neighbours> neighbours; ///< indices into `parts`

    bool operator==(const Parts&) const = default;
};

/// Every key row that has a stitch or a line.
[[nodiscard]] Parts partsByColour(const chart::Chart& chart);
/// Every motif. Backstitch follows the motif that most of its line borders, when applied.
[[nodiscard]] Parts partsByMotif(const chart::Chart& chart, const chart::Motifs& motifs);

/// What each part weighs in the cost: its share of all stitches, small parts counted for a
/// hundredth at least; adds up to 1.
[[nodiscard]] std::vector<double> sharesOf(const Parts& parts);

} // namespace otherskein::colourway
