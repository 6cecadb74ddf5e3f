#pragma once

#include "colourway/recolour.h"

#include <QByteArray>

namespace otherskein::colourway {

/// A colourway with the question that it answers, as the workbox keeps it. Parts are named by their
/// row of the key and first cell, so it outlives a move of the motif slider as far as parts do.
struct SavedColourway {
    RecolourQuestion question; ///< its locks are those of `choices`
    struct PartChoice {
        chart::KeyIndex key = 0;
        chart::Cell first;
        Choice choice; ///< with the thread's colour as it was, should its card go
        bool locked = false;
        bool operator==(const PartChoice&) const = default;
    };
    std::vector<PartChoice> choices;

    bool operator==(const SavedColourway&) const = default;
};

[[nodiscard]] SavedColourway saved(const Subject& subject, const RecolourQuestion& question,
                                   const Colourway& colourway);

struct RestoredColourway {
    RecolourQuestion question; ///< with locks by index again
    Colourway colourway;       ///< parts that are new take their charted thread
};
/// Threads that stand in `cards` take their present colour and stash.
[[nodiscard]] RestoredColourway restored(const SavedColourway& saved, const Subject& subject,
                                         std::span<const thread::ShadeCard* const> cards);

/// JSON, UTF-8, one object; `fromJson(toJson(x)) == x`, the threads' stash and notes aside.
[[nodiscard]] QByteArray toJson(const SavedColourway& saved);
/// Errors: InputError naming `source` when it is no such object.
[[nodiscard]] SavedColourway fromJson(const QByteArray& json, const QString& source);

} // namespace otherskein::colourway
