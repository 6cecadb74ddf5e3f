#pragma once

#include "app/threads/thread_item.h"
#include "app/threads/threads_state.h"

#include <vector>

namespace otherskein::app {

/// Where a colour stands in a wall by hue: smaller comes first. Neutrals lead, from light to dark;
/// then come the hues from red onwards in steps. Each step goes up through its muted colours, from
/// dark to light, and down through its strong ones, so that no run begins with a jump.
[[nodiscard]] double hueKey(const colour::Lab& lab);

/// The threads that the state lets through, as indices into `items`, in the state's order: nearest
/// first when a colour is searched for, else the table's header, else the wall's order. Threads
/// that tie stay in the order of `items`. Sets each item's `distance`.
[[nodiscard]] std::vector<int> arranged(std::vector<ThreadItem>& items, const ThreadsState& state);

} // namespace otherskein::app
