#pragma once

#include "app/frame/session.h"
#include "trace/tracing.h"

#include <span>

namespace otherskein::app {

// What the user changes in a traced chart, each as the whole chart that comes of it; and how a
// tracing comes into the workbox.

/// All these cells are worked in `row`, or bare.
[[nodiscard]] chart::Chart withCells(const chart::Chart& chart, std::span<const chart::Cell> cells,
                                     chart::KeyIndex row);
/// Two rows that are one symbol: all of `from` is worked in `to`, or bare, and `from` is gone from
/// the key.
[[nodiscard]] chart::Chart withRowsJoined(const chart::Chart& chart, chart::KeyIndex from,
                                          chart::KeyIndex to);

/// The row whose symbol is that letter: as it is typed, else in the other case.
[[nodiscard]] std::optional<chart::KeyIndex> rowOfLetter(const chart::Key& key,
                                                         const QString& letter);

/// A row whose code one thread of the workbox has, on one card and no other, is worked with that
/// thread.
[[nodiscard]] chart::Chart withThreadsOfCodes(const chart::Chart& chart, const Session& session);
/// Whether the workbox has the row's thread.
[[nodiscard]] bool isInWorkbox(const chart::KeyRow& row, const Session& session);

/// What the workbox keeps of a tracing. Takes seconds for a large page: for a worker. Errors:
/// InputError when the picture cannot be written.
[[nodiscard]] workbox::TracedPage pageOf(const trace::Tracing& tracing);

} // namespace otherskein::app
