#pragma once

#include "colourway/recolour.h"

#include <QString>

#include <map>
#include <vector>

namespace otherskein::app {

/// One row of the colourway as a table: a part, or all motifs that take one thread.
struct ColourwayRow {
    std::vector<std::size_t> parts; ///< at least one
    QString label;
    QString origin; ///< the label, or of a key row "was LF-218": what the row stands for, in short
    colourway::Choice was; ///< of the first part
    colourway::Choice now;
    double de00 = 0;
    QString words; ///< how `now` differs from `was`
    int stitches = 0;
    int locked = 0; ///< parts that are locked
    bool byMotif = false;

    [[nodiscard]] bool isLocked() const { return locked == static_cast<int>(parts.size()); }
};

/// Motifs beyond this many are grouped by thread.
inline constexpr std::size_t kMostMotifRows = 24;

/// Shapes: `now` has one choice a part. Parts stand in their order; groups by stitches, most first.
[[nodiscard]] std::vector<ColourwayRow>
rowsOf(const colourway::Subject& subject, const std::vector<colourway::Choice>& now,
       const std::map<std::size_t, colourway::Choice>& locks);

} // namespace otherskein::app
