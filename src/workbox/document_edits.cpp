// The edits of Document: each checks, builds an Edit from what stands before and after, and hands
// it to `perform`.

#include "base/input_error.h"
#include "workbox/detail/card_merge.h"
#include "workbox/detail/chart_rules.h"
#include "workbox/detail/rules.h"
#include "workbox/document.h"

#include <QSet>

#include <algorithm>
#include <set>

namespace otherskein::workbox {

namespace {

StoredCard withoutThreads(const StoredCard& card) {
    return {card.id, card.name, card.columns, {}};
}

base::InputError threadIsGone(const QString& cardName) {
    return base::InputError({cardName,
                             {},
                             {},
                             QStringLiteral("a thread that is on the card"),
                             QStringLiteral("one that is gone")});
}

/// Each code once on the card as it will be.
void checkCodes(const StoredCard& card, const std::map<ThreadId, const thread::Thread*>& after) {
    QSet<QString> codes;
    for (const StoredThread& one : card.threads) {
        const auto changed = after.find(one.id);
        const QString& code = (changed == after.end() ? &one.thread : changed->second)->code;
        if (codes.contains(code)) {
            throw detail::doubledCode(card.name, code);
        }
        codes.insert(code);
    }
}

} // namespace

CardId Document::addCard(const thread::ShadeCard& card) {
    addAll({card}, {}, tr("Add shade card"));
    return m_contents.cards.back().id; // the newest id, which stands last
}

void Document::addAll(const std::vector<thread::ShadeCard>& cards,
                      const std::vector<thread::Ground>& grounds, const QString& text,
                      const std::vector<chart::Chart>& charts) {
    Edit edit;
    QSet<QString> taken;
    for (const StoredCard& one : m_contents.cards) {
        taken.insert(one.name);
    }
    auto cardId = static_cast<qint64>(m_store.nextCardId(cards.size()));
    for (const thread::ShadeCard& given : cards) {
        thread::ShadeCard card = detail::checkedCard(given);
        StoredCard stored{
            CardId{cardId++}, detail::freeName(card.name, taken), std::move(card.columns), {}};
        taken.insert(stored.name);
        auto threadId = static_cast<qint64>(m_store.nextThreadId(card.threads.size()));
        stored.threads.reserve(card.threads.size());
        for (thread::Thread& one : card.threads) {
            stored.threads.push_back({ThreadId{threadId++}, std::move(one)});
        }
        edit.cards.push_back({std::nullopt, std::move(stored)});
    }
    auto groundId = static_cast<qint64>(m_store.nextGroundId(grounds.size()));
    for (const thread::Ground& given : grounds) {
        edit.grounds.push_back({GroundId{groundId++}, std::nullopt, detail::checkedGround(given)});
    }
    QSet<QString> takenByCharts;
    for (const StoredChart& one : m_contents.charts) {
        takenByCharts.insert(one.facts.name);
    }
    auto chartId = static_cast<qint64>(m_store.nextChartId(charts.size()));
    for (const chart::Chart& given : charts) {
        chart::Chart chart = detail::checkedChart(given);
        chart.name = detail::freeName(chart.name, takenByCharts);
        takenByCharts.insert(chart.name);
        edit.charts.push_back(
            {std::nullopt, detail::storedChart(ChartId{chartId++}, std::move(chart), {})});
    }
    perform(std::move(edit), text);
}

void Document::renameCard(CardId id, const QString& name) {
    const StoredCard& card = existing(id);
    const QString wanted = detail::checkedCardName(name);
    if (wanted == card.name) {
        return;
    }
    if (cardNamed(wanted)) {
        throw base::InputError({card.name,
                                {},
                                QStringLiteral("name"),
                                QStringLiteral("a name that no other shade card has"),
                                base::quotedForMessage(wanted)});
    }
    StoredCard after = withoutThreads(card);
    after.name = wanted;
    Edit edit;
    edit.cards.push_back({withoutThreads(card), after});
    perform(std::move(edit), tr("Rename shade card"));
}

void Document::removeCard(CardId id) {
    Edit edit;
    edit.cards.push_back({existing(id), std::nullopt});
    perform(std::move(edit), tr("Delete shade card"));
}

void Document::mergeCard(CardId id, const thread::ShadeCard& from) {
    const StoredCard& card = existing(id);
    thread::ShadeCard given = from;
    given.name = card.name; // the name to show in messages
    given = detail::checkedCard(std::move(given));
    const std::size_t added = detail::newCodes(card, given);
    detail::checkThreadCount(card.threads.size() + added, card.name);
    perform(detail::mergeEdit(card, given, m_store.nextThreadId(added)), tr("Update shade card"));
}

ThreadId Document::addThread(CardId card, const thread::Thread& thread) {
    const StoredCard& on = existing(card);
    thread::Thread checked = detail::checkedThread(thread, on.name);
    detail::checkThreadCount(on.threads.size() + 1, on.name);
    if (std::ranges::any_of(
            on.threads, [&](const StoredThread& one) { return one.thread.code == checked.code; })) {
        throw detail::doubledCode(on.name, checked.code);
    }
    const ThreadId id = m_store.nextThreadId();
    Edit edit;
    edit.threads.push_back({card, id, on.threads.size(), std::nullopt, std::move(checked)});
    perform(std::move(edit), tr("Add thread"));
    return id;
}

void Document::changeThreads(CardId card, const std::map<ThreadId, thread::Thread>& after,
                             const QString& text, const QString& mergeKey) {
    const StoredCard& on = existing(card);
    Edit edit;
    std::size_t found = 0;
    bool newCodes = false;
    for (const StoredThread& one : on.threads) {
        const auto given = after.find(one.id);
        if (given == after.end()) {
            continue;
        }
        ++found;
        thread::Thread checked = detail::checkedThread(given->second, on.name);
        if (checked != one.thread) {
            newCodes = newCodes || checked.code != one.thread.code;
            edit.threads.push_back({card, one.id, 0, one.thread, std::move(checked)});
        }
    }
    if (found != after.size()) {
        throw threadIsGone(on.name);
    }
    if (newCodes) {
        std::map<ThreadId, const thread::Thread*> changed;
        for (const ThreadChange& change : edit.threads) {
            changed.emplace(change.id, &*change.after);
        }
        checkCodes(on, changed);
    }
    perform(std::move(edit), text, mergeKey);
}

void Document::removeThreads(CardId card, const std::vector<ThreadId>& ids) {
    const StoredCard& on = existing(card);
    const std::set<ThreadId> wanted(ids.begin(), ids.end());
    Edit edit;
    for (std::size_t i = 0; i < on.threads.size(); ++i) {
        if (wanted.contains(on.threads[i].id)) {
            edit.threads.push_back({card, on.threads[i].id, i, on.threads[i].thread, std::nullopt});
        }
    }
    if (edit.threads.size() != wanted.size()) {
        throw threadIsGone(on.name);
    }
    perform(std::move(edit), wanted.size() == 1 ? tr("Delete thread") : tr("Delete threads"));
}

GroundId Document::addGround(const thread::Ground& ground) {
    addAll({}, {ground}, tr("Add ground"));
    return m_contents.grounds.back().id;
}

void Document::changeGround(GroundId id, const thread::Ground& after, const QString& mergeKey) {
    const thread::Ground& before = existing(id).ground;
    const thread::Ground checked = detail::checkedGround(after);
    if (checked != before) {
        Edit edit;
        edit.grounds.push_back({id, before, checked});
        perform(std::move(edit), tr("Change ground"), mergeKey);
    }
}

void Document::removeGround(GroundId id) {
    Edit edit;
    edit.grounds.push_back({id, existing(id).ground, std::nullopt});
    perform(std::move(edit), tr("Delete ground"));
}

} // namespace otherskein::workbox
