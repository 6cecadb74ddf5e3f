#include "app/threads/thread_edits.h"

#include "app/threads/thread_columns.h"
#include "base/input_error.h"

#include <QCoreApplication>

#include <map>
#include <set>

namespace otherskein::app {

namespace {

/// The wanted ids of each card, looked for in one pass over the card.
std::map<workbox::CardId, std::set<workbox::ThreadId>> byCard(std::span<const ThreadRef> threads) {
    std::map<workbox::CardId, std::set<workbox::ThreadId>> cards;
    for (const ThreadRef& ref : threads) {
        cards[ref.card].insert(ref.id);
    }
    return cards;
}

/// Does `edit` for every key of `parts` as one step; a refusal takes back what went before.
template <typename Parts, typename DoEdit>
void asOneStep(workbox::Document& document, const Parts& parts, const QString& text,
               const DoEdit& doEdit) {
    if (parts.size() == 1) {
        doEdit(*parts.begin());
        return;
    }
    QUndoStack& undo = document.undoStack();
    undo.beginMacro(text);
    try {
        for (const auto& part : parts) {
            doEdit(part);
        }
    } catch (const base::InputError&) {
        undo.endMacro();
        undo.undo();
        throw;
    }
    undo.endMacro();
}

} // namespace

void changeThreads(workbox::Document& document, std::span<const ThreadRef> threads,
                   const ThreadChanger& changer, const QString& text, const QString& mergeKey) {
    std::map<workbox::CardId, std::map<workbox::ThreadId, thread::Thread>> changes;
    for (const auto& [cardId, ids] : byCard(threads)) {
        const workbox::StoredCard* card = document.card(cardId);
        if (card == nullptr) {
            continue;
        }
        for (const workbox::StoredThread& one : card->threads) {
            if (!ids.contains(one.id)) {
                continue;
            }
            thread::Thread after = changer(one.thread, card->name);
            if (after != one.thread) {
                changes[cardId].emplace(one.id, std::move(after));
            }
        }
    }
    if (changes.empty()) {
        return;
    }
    asOneStep(document, changes, text, [&](const auto& change) {
        document.changeThreads(change.first, change.second, text, mergeKey);
    });
}

void removeThreads(workbox::Document& document, std::span<const ThreadRef> threads) {
    std::map<workbox::CardId, std::vector<workbox::ThreadId>> gone;
    for (const auto& [cardId, ids] : byCard(threads)) {
        if (document.card(cardId) != nullptr) {
            gone[cardId].assign(ids.begin(), ids.end());
        }
    }
    if (gone.empty()) {
        return;
    }
    const QString text = QCoreApplication::translate("Threads", "Delete %1")
                             .arg(shownCount(static_cast<int>(threads.size())));
    asOneStep(document, gone, text,
              [&](const auto& card) { document.removeThreads(card.first, card.second); });
}

} // namespace otherskein::app
