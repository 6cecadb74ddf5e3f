#include "workbox/detail/contents.h"

#include "workbox/detail/chart_contents.h"
#include "workbox/detail/inserted.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <unordered_map>

namespace otherskein::workbox::detail {

namespace {

/// The changes of one card by the thread that each is about.
using ChangesOfCard = std::unordered_map<ThreadId, const ThreadChange*>;

std::map<CardId, ChangesOfCard> byCard(const std::vector<ThreadChange>& changes) {
    std::map<CardId, ChangesOfCard> result;
    for (const ThreadChange& change : changes) {
        result[change.card].emplace(change.id, &change);
    }
    return result;
}

bool threadsFit(const StoredCard& card, const ChangesOfCard& changes) {
    std::size_t found = 0;
    for (const StoredThread& one : card.threads) {
        const auto change = changes.find(one.id);
        if (change != changes.end()) {
            if (change->second->before != one.thread) {
                return false;
            }
            ++found;
        }
    }
    const auto expected = std::ranges::count_if(
        changes, [](const auto& entry) { return entry.second->before.has_value(); });
    return std::cmp_equal(found, expected);
}

bool cardFits(const Contents& contents, const CardChange& change) {
    const StoredCard* card =
        find(contents.cards, (change.before ? change.before : change.after)->id);
    if (!change.before || !card) {
        return !change.before && !card;
    }
    const bool same = card->name == change.before->name && card->columns == change.before->columns;
    return same && (change.after || card->threads == change.before->threads);
}

bool groundFits(const Contents& contents, const GroundChange& change) {
    const StoredGround* ground = find(contents.grounds, change.id);
    return change.before ? ground && ground->ground == *change.before : !ground;
}

/// Keeps the order of ids, which is the order in which cards and grounds were first added.
template <typename Stored>
void insertById(std::vector<Stored>& list, Stored stored) {
    const auto at = std::ranges::lower_bound(list, stored.id, {}, &Stored::id);
    list.insert(at, std::move(stored));
}

void carryOut(std::vector<StoredCard>& cards, const CardChange& change) {
    if (!change.before) {
        insertById(cards, *change.after);
    } else if (!change.after) {
        std::erase_if(cards, [&](const StoredCard& card) { return card.id == change.before->id; });
    } else {
        StoredCard* card = find(cards, change.after->id);
        card->name = change.after->name;
        card->columns = change.after->columns;
    }
}

void carryOut(std::vector<StoredGround>& grounds, const GroundChange& change) {
    std::erase_if(grounds, [&](const StoredGround& one) { return one.id == change.id; });
    if (change.after) {
        insertById(grounds, StoredGround{change.id, *change.after});
    }
}

void carryOut(StoredCard& card, const ChangesOfCard& changes) {
    bool deletes = false;
    std::vector<std::pair<std::size_t, StoredThread>> additions;
    for (const auto& [id, change] : changes) {
        deletes = deletes || !change->after;
        if (!change->before) {
            additions.emplace_back(change->position, StoredThread{id, *change->after});
        }
    }
    for (StoredThread& one : card.threads) {
        const auto found = changes.find(one.id);
        if (found != changes.end() && found->second->after) {
            one.thread = *found->second->after;
        }
    }
    if (deletes) {
        std::erase_if(card.threads, [&](const StoredThread& one) {
            const auto found = changes.find(one.id);
            return found != changes.end() && !found->second->after;
        });
    }
    std::ranges::sort(additions, {}, [](const auto& addition) { return addition.first; });
    card.threads = inserted(std::move(card.threads), std::move(additions));
}

} // namespace

bool fits(const Contents& contents, const Edit& edit) {
    return std::ranges::all_of(edit.cards,
                               [&](const auto& change) { return cardFits(contents, change); }) &&
           std::ranges::all_of(edit.grounds,
                               [&](const auto& change) { return groundFits(contents, change); }) &&
           chartsFit(contents, edit) &&
           std::ranges::all_of(byCard(edit.threads), [&](const auto& entry) {
               const StoredCard* card = find(contents.cards, entry.first);
               return card && threadsFit(*card, entry.second);
           });
}

void carryOut(Contents& contents, const Edit& edit) {
    assert(fits(contents, edit));
    for (const auto& [id, changes] : byCard(edit.threads)) {
        carryOut(*find(contents.cards, id), changes);
    }
    for (const CardChange& change : edit.cards) {
        carryOut(contents.cards, change);
    }
    for (const GroundChange& change : edit.grounds) {
        carryOut(contents.grounds, change);
    }
    carryOutCharts(contents, edit);
}

StoredCard* find(std::vector<StoredCard>& cards, CardId id) {
    const auto found = std::ranges::find(cards, id, &StoredCard::id);
    return found == cards.end() ? nullptr : &*found;
}

const StoredCard* find(const std::vector<StoredCard>& cards, CardId id) {
    const auto found = std::ranges::find(cards, id, &StoredCard::id);
    return found == cards.end() ? nullptr : &*found;
}

const StoredGround* find(const std::vector<StoredGround>& grounds, GroundId id) {
    const auto found = std::ranges::find(grounds, id, &StoredGround::id);
    return found == grounds.end() ? nullptr : &*found;
}

} // namespace otherskein::workbox::detail
