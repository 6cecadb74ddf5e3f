#pragma once

#include "colour/difference.h"
#include "colourway/colourway.h"
#include "colourway/solver.h"
#include "colourway/substitute.h"
#include "thread/ground.h"

#include <map>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

namespace otherskein::colourway {

/// Where the colours come from.
struct FromThreads {
    /// Threads that must be among the colours (card and code); the rest are well spread.
    std::vector<std::pair<QString, QString>> wanted;
    bool operator==(const FromThreads&) const = default;
};
struct HueFamily {
    double hue = 0; ///< CIELAB hue angle, degrees
    bool neutralsToo = false;
    bool operator==(const HueFamily&) const = default;
};
struct FromPicture {
    std::vector<colour::Lab> colours; ///< the picture's main colours, by share
    bool operator==(const FromPicture&) const = default;
};
struct Surprise {
    bool operator==(const Surprise&) const = default;
};
/// Every part keeps its charted colour as nearly as the threads allow.
struct AsCharted {
    bool operator==(const AsCharted&) const = default;
};
using Theme = std::variant<AsCharted, FromThreads, HueFamily, FromPicture, Surprise>;

/// The whole question; the window and the commands build the same value.
struct RecolourQuestion {
    By by = By::Motif;
    Theme theme = Surprise{};
    int colours = 0;      ///< at most so many different threads; 0: as many as suit
    double floor = 12;    ///< ΔE00 that neighbouring motifs should differ by
    double onGround = 16; ///< ΔE00 that every part should stand off the ground
    thread::Ground ground;
    int strands = 2;
    PoolFilter filter; ///< stash only, in stock, fibre, finish
    bool blends = false;
    bool stashFirst = true; ///< a thread to buy costs a little
    std::uint64_t seed = 1;
    /// Parts that keep a choice: by index into Parts.
    std::map<std::size_t, Choice> locks;

    bool operator==(const RecolourQuestion&) const = default;
};

/// A chart as recolouring sees it; built once, shared with workers.
struct Subject {
    chart::Chart chart;
    std::optional<chart::Motifs> motifs; ///< By::Motif
    Parts parts;
    std::vector<Choice> charted; ///< one a part: the key's thread where a card has it
};
[[nodiscard]] std::shared_ptr<const Subject>
subjectOf(const chart::Chart& chart, By by, const chart::MotifPlan& plan,
          std::span<const thread::ShadeCard* const> cards);

/// What the key calls for: the thread of a card where one has it, else the row's pixel.
[[nodiscard]] Choice chartedChoice(const chart::KeyRow& row,
                                   std::span<const thread::ShadeCard* const> cards);

/// `colourway` worked into the subject's chart: see colourway.h.
[[nodiscard]] chart::Chart workedChart(const Subject& subject, const Colourway& colourway);

/// Told the share done, 0..1; false stops.
using Progress = std::function<bool(double)>;

/// The colourway of least cost. Empty when stopped. Errors: InputError when no thread is left to
/// choose from.
[[nodiscard]] std::optional<Colourway> recolour(const Subject& subject,
                                                const RecolourQuestion& question,
                                                const thread::ThreadPool& pool,
                                                const Progress& progress = {});

/// A wall of `count` colourways that differ from each other to the eye: for the theme of the
/// question, others of its seeds, steps of lightness and hues. The first is `recolour`'s.
/// `found` is told each as it comes, from the calling thread.
[[nodiscard]] std::vector<Colourway>
alternatives(const Subject& subject, const RecolourQuestion& question,
             const thread::ThreadPool& pool, std::size_t count, const Progress& progress = {},
             const std::function<void(const Colourway&)>& found = {});

/// Colourways like `liked`: close in hue and strength, each part moved a little.
[[nodiscard]] std::vector<Colourway>
moreLike(const Subject& subject, const RecolourQuestion& question, const thread::ThreadPool& pool,
         const Colourway& liked, std::size_t count, const Progress& progress = {},
         const std::function<void(const Colourway&)>& found = {});

/// Figures of any colourway, also one put together by hand.
[[nodiscard]] Figures figuresOf(const Subject& subject, const RecolourQuestion& question,
                                const std::vector<Choice>& now);

/// Figures::orderKept alone. Shapes: both have one choice a part.
[[nodiscard]] double orderKept(const std::vector<Choice>& was, const std::vector<Choice>& now);

/// What converting could not keep, a line a pair: both were told apart by `was` and are now by
/// `now`, less than 0.75 of it and under ΔE00 12 (ours).
struct LostSeparation {
    std::size_t one = 0;
    std::size_t other = 0;
    double was = 0;
    double now = 0;
};
[[nodiscard]] std::vector<LostSeparation> lostSeparations(const Subject& subject,
                                                          const std::vector<Choice>& now);

} // namespace otherskein::colourway
