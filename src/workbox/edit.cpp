#include "workbox/store.h"

#include <algorithm>

namespace otherskein::workbox {

namespace {

template <typename Change>
std::vector<Change> reversed(const std::vector<Change>& changes) {
    std::vector<Change> result(changes.rbegin(), changes.rend());
    for (Change& change : result) {
        std::swap(change.before, change.after);
    }
    return result;
}

std::size_t byteSize(const QString& text) {
    // The text with its terminator, and what the allocator and the shared header add.
    constexpr std::size_t kHeader = 48;
    return text.isEmpty() ? 0
                          : kHeader + sizeof(QChar) * (static_cast<std::size_t>(text.size()) + 1);
}

std::size_t byteSize(const std::vector<QString>& texts) {
    std::size_t sum = 0;
    for (const QString& text : texts) {
        sum += sizeof(QString) + byteSize(text);
    }
    return sum;
}

// What lies outside the value's own sizeof.
std::size_t byteSize(const thread::Thread& thread) {
    return byteSize(thread.code) + byteSize(thread.name) + byteSize(thread.fibre) +
           byteSize(thread.lot) + byteSize(thread.note) + byteSize(thread.extra);
}

std::size_t byteSize(const StoredCard& card) {
    std::size_t sum = byteSize(card.name) + byteSize(card.columns);
    for (const StoredThread& one : card.threads) {
        sum += sizeof(StoredThread) + byteSize(one.thread);
    }
    return sum;
}

std::size_t byteSize(const thread::Ground& ground) {
    return byteSize(ground.name) + byteSize(ground.weave);
}

template <typename Change>
std::size_t byteSize(const std::vector<Change>& changes) {
    std::size_t sum = 0;
    for (const Change& change : changes) {
        sum += sizeof(Change) + (change.before ? byteSize(*change.before) : 0) +
               (change.after ? byteSize(*change.after) : 0);
    }
    return sum;
}

} // namespace

bool Edit::isEmpty() const {
    return cards.empty() && threads.empty() && grounds.empty();
}

Edit inverse(const Edit& edit) {
    return {reversed(edit.cards), reversed(edit.threads), reversed(edit.grounds)};
}

std::size_t byteSize(const Edit& edit) {
    return sizeof(Edit) + byteSize(edit.cards) + byteSize(edit.threads) + byteSize(edit.grounds);
}

} // namespace otherskein::workbox
