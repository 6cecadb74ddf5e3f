#include "workbox/document.h"

#include "base/input_error.h"
#include "workbox/detail/contents.h"
#include "workbox/detail/edit_command.h"

#include <algorithm>
#include <set>

namespace otherskein::workbox {

namespace {

base::InputError gone(const QString& thing) {
    return base::InputError({QStringLiteral("workbox"),
                             {},
                             {},
                             QStringLiteral("%1 that is there").arg(thing),
                             QStringLiteral("one that is gone")});
}

} // namespace

Document::Document(const QString& path, QObject* parent)
    : QObject(parent), m_store(path), m_contents(m_store.load()) {
    noteChartFacts();
}

Document::~Document() = default;

const StoredCard* Document::card(CardId id) const {
    return detail::find(m_contents.cards, id);
}

const StoredCard* Document::cardNamed(const QString& name) const {
    const auto found = std::ranges::find(m_contents.cards, name, &StoredCard::name);
    return found == m_contents.cards.end() ? nullptr : &*found;
}

const thread::Thread* Document::thread(CardId card, ThreadId id) const {
    const StoredCard* on = this->card(card);
    if (!on) {
        return nullptr;
    }
    const auto found = std::ranges::find(on->threads, id, &StoredThread::id);
    return found == on->threads.end() ? nullptr : &found->thread;
}

const StoredGround* Document::ground(GroundId id) const {
    return detail::find(m_contents.grounds, id);
}

thread::ShadeCard Document::shadeCard(CardId id) const {
    thread::ShadeCard result;
    if (const StoredCard* stored = card(id)) {
        result.name = stored->name;
        result.columns = stored->columns;
        result.threads.reserve(stored->threads.size());
        for (const StoredThread& one : stored->threads) {
            result.threads.push_back(one.thread);
        }
    }
    return result;
}

void Document::reload() {
    Contents contents = m_store.load();
    m_undo.clear();
    m_contents = std::move(contents);
    noteChartFacts();
    Q_EMIT cardsChanged();
    for (const StoredCard& one : m_contents.cards) {
        Q_EMIT threadsChanged(one.id);
    }
    Q_EMIT groundsChanged();
    Q_EMIT chartsChanged();
    for (const StoredChart& one : m_contents.charts) {
        Q_EMIT chartChanged(one.facts.id, {0, 0, one.facts.columns, one.facts.rows});
        Q_EMIT motifPlanChanged(one.facts.id);
        Q_EMIT tracedPageChanged(one.facts.id);
        Q_EMIT colourwaysChanged(one.facts.id);
    }
}

const StoredCard& Document::existing(CardId id) const {
    const StoredCard* found = card(id);
    if (!found) {
        throw gone(QStringLiteral("a shade card"));
    }
    return *found;
}

const StoredGround& Document::existing(GroundId id) const {
    const StoredGround* found = ground(id);
    if (!found) {
        throw gone(QStringLiteral("a ground"));
    }
    return *found;
}

void Document::carryOut(const Edit& edit) {
    // After a step was dropped, later ones may no longer start from what is there.
    if (!detail::fits(m_contents, edit)) {
        throw base::InputError(
            {m_store.path(),
             {},
             {},
             QStringLiteral("what this step starts from"),
             QStringLiteral("something else, since an earlier step was dropped")});
    }
    m_store.apply(edit);
    detail::carryOut(m_contents, edit);
    if (!edit.charts.empty() || !edit.patches.empty()) {
        noteChartFacts();
    }
}

void Document::announce(const Edit& edit) {
    if (!edit.cards.empty()) {
        Q_EMIT cardsChanged();
    }
    std::set<CardId> cards;
    for (const ThreadChange& change : edit.threads) {
        cards.insert(change.card);
    }
    for (const CardId id : cards) {
        Q_EMIT threadsChanged(id);
    }
    if (!edit.grounds.empty()) {
        Q_EMIT groundsChanged();
    }
    announceCharts(edit);
}

void Document::perform(Edit edit, const QString& text, const QString& mergeKey) {
    if (edit.isEmpty()) {
        return;
    }
    carryOut(edit);
    // The step shares this edit, and may be merged or forgotten before it is announced.
    const auto shared = std::make_shared<const Edit>(std::move(edit));
    m_undo.push(std::make_unique<EditCommand>(*this, shared, text, mergeKey).release());
    forgetOldSteps();
    announce(*shared);
}

/// QUndoStack bounds its steps by number only. So when they grow too large, the newest that make up
/// half the bound are put on an emptied stack; half, so that this happens seldom.
void Document::forgetOldSteps() {
    std::size_t sum = 0;
    std::size_t kept = 0;
    int firstKept = m_undo.count();
    for (int i = m_undo.count() - 1; i >= 0; --i) {
        const auto* step = dynamic_cast<const EditCommand*>(m_undo.command(i));
        if (!step) {
            return; // somebody else's step, which we cannot push again
        }
        sum += step->bytes();
        if (i == m_undo.count() - 1 || sum <= kMostUndoBytes / 2) {
            firstKept = i;
            ++kept;
        }
    }
    if (sum <= kMostUndoBytes || std::cmp_equal(kept, m_undo.count())) {
        return;
    }
    std::vector<std::unique_ptr<EditCommand>> newest;
    for (int i = firstKept; i < m_undo.count(); ++i) {
        newest.push_back(
            std::make_unique<EditCommand>(*dynamic_cast<const EditCommand*>(m_undo.command(i))));
    }
    m_undo.clear();
    for (auto& step : newest) {
        m_undo.push(step.release());
    }
}

} // namespace otherskein::workbox
