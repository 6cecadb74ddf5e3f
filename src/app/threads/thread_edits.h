#pragma once

#include "app/threads/thread_item.h"
#include "workbox/document.h"

#include <functional>
#include <span>

namespace otherskein::app {

/// Edits of threads that may lie on several cards, each one step of the Edit menu. Errors:
/// InputError; then nothing has changed.

using ThreadChanger = std::function<thread::Thread(const thread::Thread&, const QString& card)>;

/// Threads that are gone are passed over; a change that comes to nothing makes no step.
/// `mergeKey` as Document::changeThreads; it has no effect across cards.
void changeThreads(workbox::Document& document, std::span<const ThreadRef> threads,
                   const ThreadChanger& changer, const QString& text, const QString& mergeKey = {});

void removeThreads(workbox::Document& document, std::span<const ThreadRef> threads);

} // namespace otherskein::app
