#include "app/threads/thread_model.h"

#include "app/frame/chip.h"
#include "app/threads/thread_edits.h"
#include "app/threads/thread_filter.h"
#include "app/threads/thread_order.h"
#include "base/input_error.h"

#include <QColor>

#include <algorithm>

namespace otherskein::app {

namespace {

QRgb shownRgb(const thread::Thread& thread) {
    return toQColor(thread::shownColour(thread)).rgb();
}

/// Whether two states ask for the same threads in the same order.
bool sameQuestion(const ThreadsState& one, ThreadsState other) {
    other.chipWidth = one.chipWidth;
    return one == other;
}

} // namespace

ThreadModel::ThreadModel(workbox::Document& document, QObject* parent)
    : QAbstractTableModel(parent), m_document(document) {
    connect(&document, &workbox::Document::cardsChanged, this, [this] { reload(WhatCame::Cards); });
    connect(&document, &workbox::Document::threadsChanged, this, &ThreadModel::cardEdited);
    load();
    m_rows = arranged(m_items, m_state);
}

void ThreadModel::load() {
    m_items.clear();
    m_extraColumns.clear();
    for (const workbox::StoredCard& card : m_document.cards()) {
        if (m_state.card && *m_state.card != card.id) {
            continue;
        }
        m_items.reserve(m_items.size() + card.threads.size());
        for (const workbox::StoredThread& one : card.threads) {
            m_items.push_back(
                {{card.id, one.id}, card.name, one.thread, shownRgb(one.thread), 0, false});
        }
        if (m_state.card) {
            m_extraColumns = thread::extraColumns({card.name, {}, card.columns});
        }
    }
}

void ThreadModel::setState(const ThreadsState& state) {
    if (sameQuestion(state, m_state)) {
        m_state = state;
        return;
    }
    Q_EMIT aboutToRearrange();
    beginResetModel();
    const bool otherCard = state.card != m_state.card;
    m_state = state;
    if (otherCard) {
        load();
    }
    for (ThreadItem& one : m_items) {
        one.kept = false;
        one.distance = 0;
    }
    m_rows = arranged(m_items, m_state);
    m_rowOfId.clear();
    endResetModel();
    Q_EMIT rearranged({});
}

const ThreadItem& ThreadModel::item(int row) const {
    return m_items[static_cast<std::size_t>(m_rows[static_cast<std::size_t>(row)])];
}

int ThreadModel::rowOf(const ThreadRef& thread) const {
    if (m_rowOfId.isEmpty()) {
        m_rowOfId.reserve(rowCount());
        for (int row = 0; row < rowCount(); ++row) {
            m_rowOfId.insert(static_cast<qint64>(item(row).ref.id), row);
        }
    }
    return m_rowOfId.value(static_cast<qint64>(thread.id), -1);
}

void ThreadModel::keepWhatIsShown() {
    for (const int row : m_rows) {
        m_items[static_cast<std::size_t>(row)].kept = true;
    }
}

void ThreadModel::reload(WhatCame what) {
    Q_EMIT aboutToRearrange();
    beginResetModel();
    QHash<qint64, bool> shownBefore; // every thread that there was, and whether it was in view
    for (const ThreadItem& one : m_items) {
        shownBefore.insert(static_cast<qint64>(one.ref.id), false);
    }
    for (const int row : m_rows) {
        shownBefore[static_cast<qint64>(m_items[static_cast<std::size_t>(row)].ref.id)] = true;
    }
    if (m_state.card && m_document.card(*m_state.card) == nullptr) {
        m_state.card.reset();
    }
    load();
    std::vector<ThreadRef> come;
    for (ThreadItem& one : m_items) {
        const auto before = shownBefore.constFind(static_cast<qint64>(one.ref.id));
        if (before != shownBefore.constEnd()) {
            one.kept = *before;
        } else if (what == WhatCame::Threads) {
            one.kept = true;
            come.push_back(one.ref);
        }
    }
    m_rows = arranged(m_items, m_state);
    m_rowOfId.clear();
    endResetModel();
    Q_EMIT rearranged(come);
}

void ThreadModel::cardEdited(workbox::CardId id) {
    const workbox::StoredCard* card = m_document.card(id);
    if (card == nullptr || (m_state.card && *m_state.card != id)) {
        return;
    }
    const auto first =
        std::ranges::find(m_items, id, [](const ThreadItem& one) { return one.ref.card; });
    const auto last = std::find_if(first, m_items.end(),
                                   [id](const ThreadItem& one) { return one.ref.card != id; });
    if (!std::equal(first, last, card->threads.begin(), card->threads.end(),
                    [](const ThreadItem& one, const workbox::StoredThread& stored) {
                        return one.ref.id == stored.id;
                    })) {
        reload(WhatCame::Threads);
        return;
    }
    keepWhatIsShown();
    for (auto one = first; one != last; ++one) {
        const thread::Thread& now = card->threads[static_cast<std::size_t>(one - first)].thread;
        if (one->thread != now) {
            one->thread = now;
            one->shown = shownRgb(now);
        }
    }
    if (m_state.view == ThreadsView::Wall) {
        takeOrder(arranged(m_items, m_state));
    }
    if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    }
}

void ThreadModel::takeOrder(std::vector<int> rows) {
    if (rows == m_rows) {
        return;
    }
    Q_EMIT aboutToRearrange();
    beginResetModel();
    m_rows = std::move(rows);
    m_rowOfId.clear();
    endResetModel();
    Q_EMIT rearranged({});
}

int ThreadModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int ThreadModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kFixedColumns + static_cast<int>(m_extraColumns.size());
}

QVariant ThreadModel::data(const QModelIndex& index, int role) const {
    const ThreadItem& one = item(index.row());
    switch (role) {
    case Qt::DisplayRole:
        return cellText(one, index.column());
    case Qt::EditRole:
        return cellEntry(one.thread, index.column());
    case Qt::ToolTipRole:
        return description(one, QStringLiteral("\n"));
    case Qt::AccessibleTextRole:
        // The wall has the first column only, so this says it all.
        return columnIs(index.column(), Column::Colour) ? description(one, QStringLiteral(", "))
                                                        : cellText(one, index.column());
    default:
        return {};
    }
}

bool ThreadModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || role != Qt::EditRole || !isEditableColumn(index.column())) {
        return false;
    }
    const int column = index.column();
    const ThreadRef ref = item(index.row()).ref;
    const QString title = headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    try {
        changeThreads(
            m_document, {&ref, 1},
            [&](const thread::Thread& before, const QString& card) {
                return withCell(before, column, value.toString(), card);
            },
            tr("Change %1").arg(title));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
        return false;
    }
    return true;
}

QVariant ThreadModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Horizontal && role == Qt::TextAlignmentRole) {
        const auto side = isNumberColumn(section) ? Qt::AlignTrailing : Qt::AlignLeading;
        return static_cast<int>(side | Qt::AlignVCenter);
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    return section < kFixedColumns
               ? columnTitle(static_cast<Column>(section))
               : m_extraColumns[static_cast<std::size_t>(section - kFixedColumns)];
}

Qt::ItemFlags ThreadModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    return isEditableColumn(index.column()) ? plain | Qt::ItemIsEditable : plain;
}

} // namespace otherskein::app
