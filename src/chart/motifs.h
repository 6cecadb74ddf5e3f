#pragma once

#include "chart/grid.h"

#include <QString>

#include <cstdint>
#include <variant>
#include <vector>

namespace otherskein::chart {

using MotifIndex = std::uint32_t;
inline constexpr MotifIndex kNoMotif = std::numeric_limits<MotifIndex>::max();

/// A connected piece of the chart: one boathouse in a row, one leaf of a wreath.
struct Motif {
    QString name; ///< given by the user; else empty
    Cell first;   ///< its first cell, row by row: names the motif as long as that cell is its
    Area bounds;
    int stitches = 0;

    bool operator==(const Motif&) const = default;
};

/// A chart cut into motifs. Every stitch belongs to one; bare cells hold kNoMotif.
/// Motifs stand from left to right, then from top to bottom, by their bounds; ties by `first`.
struct Motifs {
    int columns = 0;
    int rows = 0;
    std::vector<MotifIndex> of; ///< columns × rows, row by row
    std::vector<Motif> motifs;

    [[nodiscard]] MotifIndex at(const Cell& cell) const {
        return of[static_cast<std::size_t>(cell.row) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(cell.column)];
    }
    bool operator==(const Motifs&) const = default;
    /// For tests: labels and the facts of each motif agree with each other and with `grid`.
    [[nodiscard]] bool isConsistent(const Grid& grid) const;
};

/// The one slider from few to many, steps 0 to kMotifSteps - 1. All numbers are ours.
/// - Below kPlainStep bare gaps are bridged, the lower the step the wider (bridgedGap), so that
///   planks parted by a bare line are one boathouse. A gap is the number of bare stitches that a
///   king crosses on his shortest walk from one piece to the other over bare ground.
/// - kPlainStep keeps 8-connected pieces as they are.
/// - Above, pieces are split at necks, the higher the step the wider the neck: it is thinner than a
///   share of the thinner of the two bodies that it joins, and by two stitches at least. Thickness
///   is the side of the largest square inside. A body has nine stitches at least.
/// - At every step crumbs, pieces of fewer than kCrumb stitches, go to the nearest piece that is no
///   crumb, at most kCrumbReach bare stitches away (of two, to the larger); one with nobody near
///   stays by itself.
/// Each step only splits what the step before has, so a higher step never gives fewer motifs.
inline constexpr int kMotifSteps = 11;
inline constexpr int kPlainStep = 5; ///< bridges nothing and splits nothing
inline constexpr int kUsualStep = 4; ///< bridges gaps of exactly one bare stitch
inline constexpr std::uint32_t kCrumb = 4;
inline constexpr int kCrumbReach = 3;
/// Bare stitches that a step bridges; 0 from kPlainStep on.
[[nodiscard]] int bridgedGap(int step);

/// With Kept, a motif never crosses from one row of the key to another, and what is worked in
/// another row is no bare ground to be bridged.
enum class KeyBounds { Ignored, Kept };
/// Cuts a grid into motifs. `step` is one of the slider's (asserted). The same on every machine.
/// Time and memory grow linearly with the cells (bridging: times the rows of the key whose pieces
/// lie around one gap).
[[nodiscard]] Motifs findMotifs(const Grid& grid, int step, KeyBounds keyBounds = KeyBounds::Kept);

/// What the user does by hand. Each names motifs through cells, so edits outlive a move of the
/// slider; one whose cells are bare by now, or already so, changes nothing.
struct JoinMotifs {
    Cell one;
    Cell other;
    bool operator==(const JoinMotifs&) const = default;
};
/// Parts the motif of `in` along a drawn line: stitches hang together as the motif was found (side
/// by side, or across the gaps that the step bridges), save where the line runs between their
/// middles. What then hangs together no longer becomes a motif of its own; the largest part keeps
/// the name. The line's ends run on by three quarters of a cell; one that does not go through cuts
/// nothing.
struct CutMotif {
    Cell in;
    struct Point {
        double x = 0; ///< in cells from the top left corner
        double y = 0;
        bool operator==(const Point&) const = default;
    };
    std::vector<Point> path;
    bool operator==(const CutMotif&) const = default;
};
struct NameMotif {
    Cell of;
    QString name;
    bool operator==(const NameMotif&) const = default;
};
using MotifEdit = std::variant<JoinMotifs, CutMotif, NameMotif>;

/// All that says how a chart is cut into motifs; kept with the chart.
struct MotifPlan {
    int step = kUsualStep;
    std::vector<MotifEdit> edits; ///< carried out in order

    bool operator==(const MotifPlan&) const = default;
};

[[nodiscard]] Motifs findMotifs(const Grid& grid, const MotifPlan& plan,
                                KeyBounds keyBounds = KeyBounds::Kept);

} // namespace otherskein::chart
