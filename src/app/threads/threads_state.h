#pragma once

#include "thread/thread.h"
#include "workbox/store.h"

#include <QString>

#include <optional>

namespace otherskein::app {

enum class WallOrder { Hue, Lightness, Code };
enum class ThreadsView { Wall, Table };

/// The table sorted by one of its columns (thread_columns.h).
struct HeaderSort {
    int column = 0;
    bool descending = false;

    bool operator==(const HeaderSort&) const = default;
};

inline constexpr int kLeastChipWidth = 12;
inline constexpr int kMostChipWidth = 168;

/// Everything that the place Threads shows follows from this and from the workbox.
struct ThreadsState {
    std::optional<workbox::CardId> card; ///< nothing: all cards
    QString search;                      ///< words, or #rrggbb; see thread_filter.h
    WallOrder order = WallOrder::Hue;
    std::optional<HeaderSort> headerSort; ///< the table's; the wall keeps to `order`
    ThreadsView view = ThreadsView::Wall;
    int chipWidth = 62; ///< of the wall, pixels
    bool onlyStash = false;
    bool withoutOut = false; ///< leaves out what is out of stock or discontinued
    std::optional<thread::Finish> finish;

    bool operator==(const ThreadsState&) const = default;
};

} // namespace otherskein::app
