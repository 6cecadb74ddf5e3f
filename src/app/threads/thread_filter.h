#pragma once

#include "app/threads/thread_item.h"
#include "app/threads/threads_state.h"

#include <QStringList>

namespace otherskein::app {

/// What the text of the search field means.
///
/// Grammar: `#rrggbb` asks for the threads nearest to that colour; a beginning of one (`#3e5`)
/// asks for nothing yet; anything else is words parted by blanks, each of which stands in the code
/// or in the name, whatever its case.
struct Search {
    QStringList words;
    std::optional<colour::Srgb8> near;
};

[[nodiscard]] Search parsedSearch(const QString& text);

/// Whether the state's search and filters let `item` through. `kept` is not looked at.
[[nodiscard]] bool passes(const ThreadItem& item, const ThreadsState& state, const Search& search);

} // namespace otherskein::app
