#pragma once

#include "colourway/parts.h"
#include "thread/thread_pool.h"

#include <QString>

#include <optional>
#include <vector>

namespace otherskein::colourway {

/// A thread, or threads worked together in one needle.
struct Choice {
    struct Portion {
        QString card;
        thread::Thread thread;
        int strands = 1; ///< of the needle's; a single thread takes them all
        bool operator==(const Portion&) const = default;
    };
    std::vector<Portion> portions; ///< one, or two for a blend; none: the pixel's bare colour
    colour::Lab lab;

    [[nodiscard]] bool isBlend() const { return portions.size() > 1; }
    [[nodiscard]] QString card() const; ///< "A", or "A + B" when a blend takes two cards
    [[nodiscard]] QString code() const; ///< "K-1", or "K-1 + K-2"
    [[nodiscard]] QString name() const;
    [[nodiscard]] bool isInStash() const; ///< some of every thread in it is owned
    /// The same threads in the same strands, whatever is known of them by now.
    [[nodiscard]] bool isSameAs(const Choice& other) const;
    bool operator==(const Choice&) const = default;
};

/// How it looks on a screen.
[[nodiscard]] colour::Srgb8 shownColour(const Choice& choice);

/// What can be said of a colourway in figures.
struct Figures {
    std::optional<double> leastBetweenNeighbours; ///< ΔE00; none without neighbours
    std::size_t closestOne = 0;                   ///< the two parts that it lies between
    std::size_t closestOther = 0;
    double leastOnGround = 0; ///< ΔE00 of a part's apparent colour against the ground
    /// Share of pairs of parts, as far as their charted lightness differs at all, that keep their
    /// order of lightness, weighed by that difference. 1 where nothing could be swapped.
    double orderKept = 1;
    int threads = 0;      ///< different ones
    int threadsToBuy = 0; ///< of them, not in the stash

    bool operator==(const Figures&) const = default;
};

/// The assignment of a thread (or a blend) to every part of a chart.
struct Colourway {
    QString name;
    By by = By::Colour;
    std::vector<Choice> now; ///< one a part, in the order of Parts
    Figures figures;
    double cost = 0;

    bool operator==(const Colourway&) const = default;
};

/// The chart worked in `colourway`: a new key with a row for each different choice, stitches and
/// lines pointing at it. Symbols are kept by rows; for motifs they are given anew.
/// Two choices that a screen shows alike get pixels one step apart, so that the key stays exact.
/// Shapes: `colourway.now[i]` belongs to `parts.parts[i]`; `motifs` is what parts were made from
/// (null for By::Colour).
[[nodiscard]] chart::Chart worked(const chart::Chart& chart, const Parts& parts,
                                  const chart::Motifs* motifs, const Colourway& colourway);

} // namespace otherskein::colourway
