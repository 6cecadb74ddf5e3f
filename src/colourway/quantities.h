#pragma once

#include "colourway/ways_out.h"

namespace otherskein::colourway {

// How much thread a chart takes, from geometry. Lengths in mm unless a name says otherwise. Figures
// are estimates: hands differ, which is what the waste share and its calibration are for.

/// One strand through one full cross on a cell of side s: two diagonals in front, √2·s each, and on
/// the back the two sides that lead from one leg's end to the next one's start, s each: (2√2 +
/// 2)·s.
[[nodiscard]] double crossMm(const thread::Ground& ground);

/// One strand along `cells` cells' length of backstitch: every stitch lies once in front and
/// reaches back twice its length behind, so 3·cells·s; turns and ends not counted.
[[nodiscard]] double backstitchMm(const thread::Ground& ground, double cells);

struct Usage {
    /// Share on top, for tails, starts and the way from one stitch to the next: a fifth (common
    /// practice, no source).
    double waste = 0.20;
    int lineStrands = 1; ///< in the needle for backstitch

    bool operator==(const Usage&) const = default;
};
/// Limits of `waste`: a calibrated one may be negative, since nobody pulls as tight as geometry.
inline constexpr double kLeastWaste = -0.5;
inline constexpr double kMostWaste = 2;

/// The waste share of a hand that gets `stitches` crosses out of one skein of `thread` with
/// `strands` in the needle. None when it lies outside kLeastWaste..kMostWaste: then a number is
/// mistyped.
[[nodiscard]] std::optional<double> wasteFromSkein(int stitches, const thread::Thread& thread,
                                                   const thread::Ground& ground, int strands);

/// What one thread comes to over the whole chart.
struct Quantity {
    QString card;
    QString code;
    QString name;
    colour::Srgb8 shown;
    std::optional<int> strands; ///< of crosses; none where its rows differ
    int stitches = 0;
    double lineCells = 0; ///< length of backstitch, in cells
    double metres = 0;    ///< of one strand, waste not counted
    int plies = 6;
    double skeinM = 8;
    double skeins = 0; ///< with waste
    double stash = 0;  ///< skeins owned
    int toBuy = 0;     ///< whole skeins
    /// The thread is on no card: plies and length are the usual ones, the stash is not known.
    bool assumed = false;
};

struct Quantities {
    std::vector<Quantity> threads; ///< in the order of the key, each thread once
    int toBuy = 0;
    /// Some thread needs skeins bought beside ones in stash: their dye lots may differ.
    bool mixesLots = false;
};

/// Whole skeins to get beside `stash`. A need of 2.0000001 skeins, by rounding, is two.
[[nodiscard]] int skeinsToBuy(double skeins, double stash);

/// `cards` are those that may know the threads; what they say of plies, length and stash stands
/// before what `now` says. Shapes: one choice a part, by colour or by motif (asserted).
/// A charted choice whose row says "A + B" is that blend, its strands shared as evenly as they go.
[[nodiscard]] Quantities quantitiesOf(const Subject& subject, const std::vector<Choice>& now,
                                      const Stitched& stitched, const Usage& usage,
                                      std::span<const thread::ShadeCard* const> cards);
/// The chart as its key says.
[[nodiscard]] Quantities quantitiesOf(const chart::Chart& chart, const Stitched& stitched,
                                      const Usage& usage,
                                      std::span<const thread::ShadeCard* const> cards);

} // namespace otherskein::colourway
