#pragma once

#include "base/input_error.h"
#include "thread/ground.h"
#include "thread/shade_card.h"

namespace otherskein::workbox::detail {

/// The rules for what may stand in the workbox: the ranges of thread/thread.h and ground.h, and
/// text that comes back from a file as it went in. All throw InputError; those that return a value
/// give it back with blanks around codes and names dropped, as the readers do.

[[nodiscard]] QString checkedCardName(const QString& name);
[[nodiscard]] thread::Thread checkedThread(thread::Thread thread, const QString& cardName);
[[nodiscard]] thread::Ground checkedGround(thread::Ground ground);

/// Columns and all threads, each code once.
[[nodiscard]] thread::ShadeCard checkedCard(thread::ShadeCard card);

[[nodiscard]] base::InputError doubledCode(const QString& cardName, const QString& code);
/// Refuses a card of more threads than its own file could be read back with.
void checkThreadCount(std::size_t count, const QString& cardName);

} // namespace otherskein::workbox::detail
