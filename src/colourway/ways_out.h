#pragma once

#include "colourway/coverage.h"
#include "colourway/ground_check.h"
#include "colourway/recolour.h"

#include <span>

namespace otherskein::colourway {

/// How a stitched colour stands on a ground, by the colour that it appears to have there.
struct Contrast {
    double coverage = 1;
    colour::Lab apparent;
    double de00 = 0;  ///< apparent against ground
    double dL = 0;    ///< apparent - ground
    double ratio = 1; ///< WCAG 2.x luminance ratio
    Verdict verdict = Verdict::Clear;

    bool operator==(const Contrast&) const = default;
};
[[nodiscard]] Contrast contrastOn(const thread::Ground& ground, const colour::Lab& thread,
                                  double coverage);

/// How a chart is to be stitched.
struct Stitched {
    thread::Ground ground;
    std::optional<int> strands; ///< of every row; none: as the key says
    PlyWidths widths;

    bool operator==(const Stitched&) const = default;
};

/// Strands of a key row, and how much of a cell they cover.
[[nodiscard]] int strandsOf(const chart::KeyRow& row, const Stitched& stitched);
[[nodiscard]] double coverageOf(const Choice& choice, int strands, const Stitched& stitched);

/// One a part, in the order of parts; backstitch alone is judged by its bare thread. Shapes: `now`
/// has one choice a part of `subject`, which is taken apart By::Colour (asserted).
[[nodiscard]] std::vector<Contrast>
contrastsOf(const Subject& subject, const std::vector<Choice>& now, const Stitched& stitched);

/// A part that vanishes and should be minded: not so backstitch of which less than a tenth lies on
/// bare ground, since it stands against the stitches beside it.
[[nodiscard]] bool isLost(const Part& part, const Contrast& contrast);

/// What can be done about a part that is lost on its ground.
struct WaysOut {
    struct MoreStrands {
        int strands = 0;
        Contrast contrast;
    };
    struct OtherGround {
        std::size_t ground = 0; ///< index into the grounds that were asked about
        Contrast contrast;      ///< of this part
        int vanishing = 0;      ///< parts of the chart that are lost there
    };
    struct OtherThread {
        Choice choice;
        Contrast contrast;
        double fromBefore = 0; ///< ΔE00 from the thread in use
    };
    std::optional<MoreStrands> strands; ///< fewest that do not vanish; none where none would help
    std::vector<OtherGround> grounds;   ///< where it does not vanish, fewest vanishing parts first,
                                        ///< then the part's own contrast
    std::optional<OtherThread> thread;  ///< none where no thread of the pool would show
};

/// The three ways out for `part`. `grounds` are the user's others. `question` gives filter and
/// stash; everything else but the part is locked.
[[nodiscard]] WaysOut waysOut(const Subject& subject, const std::vector<Choice>& now,
                              std::size_t part, const Stitched& stitched,
                              std::span<const thread::Ground> grounds,
                              const RecolourQuestion& question, const thread::ThreadPool& pool);

/// `now` with every part of `lost` in another thread that shows on the ground: the solver's, with
/// all else locked, neighbours kept apart and ramps in order, of the same fibre where there is one.
/// Wanted is the thread in use, made lighter or darker until it shows. A thread shows clearly
/// (kClearFrom) where the pool has one; else it does at least not vanish; where even that cannot be
/// had, nothing changes. None when stopped.
[[nodiscard]] std::optional<std::vector<Choice>>
pushedOff(const Subject& subject, const std::vector<Choice>& now,
          const std::vector<std::size_t>& lost, const Stitched& stitched,
          const RecolourQuestion& question, const thread::ThreadPool& pool,
          const Progress& progress = {});

} // namespace otherskein::colourway
