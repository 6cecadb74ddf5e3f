#include "workbox/detail/edit_command.h"

#include "base/input_error.h"
#include "workbox/detail/chart_merge.h"

#include <algorithm>

namespace otherskein::workbox {

namespace {

/// Two changes of one ground as one, which is empty when they lead back to the start.
std::optional<Edit> oneGroundTwice(const Edit& first, const Edit& second) {
    const auto onlyOneGround = [](const Edit& edit) {
        return edit.grounds.size() == 1 && edit.grounds.front().before &&
               edit.grounds.front().after && edit.cards.empty() && edit.threads.empty() &&
               edit.charts.empty() && edit.patches.empty() && edit.colourways.empty();
    };
    if (!onlyOneGround(first) || !onlyOneGround(second) ||
        first.grounds.front().id != second.grounds.front().id) {
        return std::nullopt;
    }
    Edit both = first;
    both.grounds.front().after = second.grounds.front().after;
    if (both.grounds.front().before == both.grounds.front().after) {
        both.grounds.clear();
    }
    return both;
}

/// `first` and then `second` as one edit, or nothing when they do not only change one ground, or
/// only threads that stand in both. `contents` are as both have left them.
std::optional<Edit> followedBy(const Edit& first, const Edit& second, const Contents& contents) {
    if (std::optional<Edit> patched = detail::patchedTwice(first, second, contents)) {
        return patched;
    }
    if (std::optional<Edit> ground = oneGroundTwice(first, second)) {
        return ground;
    }
    const auto onlyChanges = [](const Edit& edit) {
        return edit.cards.empty() && edit.grounds.empty() && edit.charts.empty() &&
               edit.patches.empty() && edit.colourways.empty() &&
               std::ranges::all_of(edit.threads, [](const ThreadChange& change) {
                   return change.before && change.after;
               });
    };
    if (!onlyChanges(first) || !onlyChanges(second)) {
        return std::nullopt;
    }
    Edit both = first;
    for (const ThreadChange& later : second.threads) {
        const auto earlier = std::ranges::find(both.threads, later.id, &ThreadChange::id);
        if (earlier == both.threads.end() || earlier->card != later.card) {
            return std::nullopt;
        }
        earlier->after = later.after;
    }
    std::erase_if(both.threads,
                  [](const ThreadChange& change) { return change.before == change.after; });
    return both;
}

} // namespace

Document::EditCommand::EditCommand(Document& document, std::shared_ptr<const Edit> edit,
                                   const QString& text, QString mergeKey)
    : QUndoCommand(text), m_document(document), m_edit(std::move(edit)),
      m_mergeKey(std::move(mergeKey)), m_bytes(byteSize(*m_edit)) {}

Document::EditCommand::EditCommand(const EditCommand& other)
    : QUndoCommand(other.text()), m_document(other.m_document), m_edit(other.m_edit),
      m_mergeKey(other.m_mergeKey), m_bytes(other.m_bytes), m_isCopy(true) {}

void Document::EditCommand::undo() {
    carryOut(inverse(*m_edit));
}

void Document::EditCommand::redo() {
    if (m_done) {
        m_done = false;
        return;
    }
    carryOut(*m_edit);
}

int Document::EditCommand::id() const {
    constexpr int kNeverMerges = -1;
    constexpr int kMerges = 1;
    return m_mergeKey.isEmpty() ? kNeverMerges : kMerges;
}

bool Document::EditCommand::mergeWith(const QUndoCommand* other) {
    const auto* later = dynamic_cast<const EditCommand*>(other);
    // A copy was done long ago: the contents are no longer as it left them.
    if (!later || later->m_isCopy || later->m_mergeKey != m_mergeKey) {
        return false;
    }
    std::optional<Edit> both = followedBy(*m_edit, *later->m_edit, m_document.contents());
    if (!both) {
        return false;
    }
    setObsolete(both->isEmpty());
    m_bytes = byteSize(*both);
    m_edit = std::make_shared<const Edit>(std::move(*both));
    setText(later->text());
    return true;
}

void Document::EditCommand::carryOut(const Edit& edit) {
    try {
        m_document.carryOut(edit);
    } catch (const base::InputError& error) {
        setObsolete(true); // QUndoStack drops the step when this returns
        Q_EMIT m_document.saveFailed(error.line());
        return;
    }
    m_document.announce(edit);
}

} // namespace otherskein::workbox
