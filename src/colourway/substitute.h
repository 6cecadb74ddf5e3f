#pragma once

#include "chart/key.h"
#include "chart/neighbours.h"
#include "colour/difference.h"
#include "colourway/pool_filter.h"
#include "thread/blends.h"
#include "thread/thread_pool.h"

#include <limits>
#include <memory>
#include <optional>
#include <vector>

namespace otherskein::colourway {

/// What is sought: a thread of a card, or a bare colour.
struct Wanted {
    QString card; ///< empty for a bare colour
    QString code; ///< empty for a bare colour
    QString name;
    colour::Lab lab;
    /// All that is known of the thread; empty for a bare colour, whose fibre and finish nobody
    /// knows.
    std::optional<thread::Thread> thread;

    bool operator==(const Wanted&) const = default;
};

enum class Order {
    Nearest,    ///< one list by ΔE00
    StashFirst, ///< what the user owns first, by ΔE00; then the rest
    InChart ///< by what each would do to the chart: its difference, what it touches, the order of
            ///< lightness; the one cost of colourway/cost.h. Nearest, without a chart.
};

/// The whole question; the window and the command line build the same value.
struct SubstituteQuestion {
    Wanted wanted;
    bool blends = false;
    /// At most this many of the answers are blends: pairs are so many that they would crowd out the
    /// single threads.
    std::size_t mostBlends = std::numeric_limits<std::size_t>::max();
    /// Leaves out blends whose two threads lie so far apart that they look speckled.
    bool calmBlends = false;
    int strands = 2; ///< in the needle
    colour::Weights weights;
    Order order = Order::Nearest;
    std::size_t limit = 10;
    chart::Key key; ///< the chart's threads; may be empty
    /// Which rows of `key` touch, and for how long; empty where only the key is known.
    std::vector<chart::Neighbours> touching;

    bool operator==(const SubstituteQuestion&) const = default;
};

enum class WarningKind {
    CloseInKey,   ///< comes closer to another thread of the key than the wanted one was
    AlreadyInKey, ///< the chart has this very thread already
    OutOfOrder,   ///< swaps the order of lightness in a ramp of the key
    OtherFibre,
    OtherFinish,
    Metallic,
    Variegated,
    OtherStrands, ///< another number of plies on the skein
    Speckled,     ///< a blend's two threads lie far apart
    WithinSpread, ///< the difference is no larger than the readings' own spread
    OutOfStock,
    Discontinued
};

struct Warning {
    WarningKind kind{};
    QString text; ///< one short sentence, translated
};

/// A single thread or a blend that could stand in for the wanted thread.
struct Candidate {
    struct Portion {
        thread::PooledThread thread;
        int strands = 1;
    };
    std::vector<Portion> portions; ///< one, or two for a blend
    colour::Lab lab;               ///< of the thread, or of the blend's mean
    double de00 = 0;
    double deEab = 0;
    colour::DifferenceParts parts; ///< from the wanted colour
    QString words;
    QString greyScale;
    std::vector<Warning> warnings;
    /// Cost of the whole chart with it in place of the wanted thread; none without a chart.
    std::optional<double> costInChart;

    [[nodiscard]] bool isBlend() const { return portions.size() > 1; }
    [[nodiscard]] QString card() const; ///< "A", or "A + B" when a blend takes two cards
    [[nodiscard]] QString code() const; ///< "K-1", or "K-1 + K-2"
    [[nodiscard]] QString name() const;
    /// True when the user owns some of every thread in it.
    [[nodiscard]] bool isInStash() const;
};

/// The ranked answer, at most `limit` long: single threads and blends in one list; ties by card,
/// then code. Empty when stopped.
[[nodiscard]] std::vector<Candidate> findSubstitutes(const SubstituteQuestion& question,
                                                     const thread::ThreadPool& pool,
                                                     const thread::StopAsked& stop = {});

} // namespace otherskein::colourway
