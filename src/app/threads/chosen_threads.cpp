#include "app/threads/chosen_threads.h"

#include "app/threads/thread_model.h"

#include <algorithm>

namespace otherskein::app {

ChosenThreads::ChosenThreads(ThreadModel& model, QObject* parent)
    : QObject(parent), m_model(model), m_selection(new QItemSelectionModel(&model, this)) {
    connect(m_selection, &QItemSelectionModel::selectionChanged, this, &ChosenThreads::changed);
    connect(&model, &ThreadModel::aboutToRearrange, this, &ChosenThreads::remember);
    connect(&model, &ThreadModel::rearranged, this, &ChosenThreads::restore);
}

std::vector<ThreadRef> ChosenThreads::threads() const {
    std::vector<int> rows;
    for (const QItemSelectionRange& range : m_selection->selection()) {
        for (int row = range.top(); row <= range.bottom(); ++row) {
            rows.push_back(row);
        }
    }
    std::ranges::sort(rows);
    rows.erase(std::ranges::unique(rows).begin(), rows.end());
    std::vector<ThreadRef> result;
    result.reserve(rows.size());
    std::ranges::transform(rows, std::back_inserter(result),
                           [this](int row) { return m_model.item(row).ref; });
    return result;
}

std::optional<ThreadRef> ChosenThreads::only() const {
    const std::vector<ThreadRef> all = threads();
    return all.size() == 1 ? std::optional(all.front()) : std::nullopt;
}

void ChosenThreads::choose(const std::vector<ThreadRef>& threads) {
    std::vector<int> rows;
    for (const ThreadRef& one : threads) {
        if (const int row = m_model.rowOf(one); row >= 0) {
            rows.push_back(row);
        }
    }
    std::ranges::sort(rows);
    QItemSelection selection;
    const int lastColumn = m_model.columnCount() - 1;
    for (std::size_t i = 0; i < rows.size();) {
        std::size_t end = i + 1; // neighbours make one range
        while (end < rows.size() && rows[end] == rows[end - 1] + 1) {
            ++end;
        }
        selection.append(QItemSelectionRange(m_model.index(rows[i], 0),
                                             m_model.index(rows[end - 1], lastColumn)));
        i = end;
    }
    if (!rows.empty()) {
        const bool currentIsAmong =
            m_selection->currentIndex().isValid() &&
            std::ranges::binary_search(rows, m_selection->currentIndex().row());
        if (!currentIsAmong) {
            m_selection->setCurrentIndex(m_model.index(rows.front(), 0),
                                         QItemSelectionModel::NoUpdate);
        }
    }
    m_selection->select(selection, QItemSelectionModel::ClearAndSelect);
}

void ChosenThreads::remember() {
    m_before = threads();
    const QModelIndex current = m_selection->currentIndex();
    m_firstRowBefore = m_before.empty() ? -1 : m_model.rowOf(m_before.front());
    m_columnBefore = current.isValid() ? current.column() : 0;
    m_currentBefore =
        current.isValid() ? std::optional(m_model.item(current.row()).ref) : std::nullopt;
}

void ChosenThreads::restore(const std::vector<ThreadRef>& come) {
    const int current = m_currentBefore ? m_model.rowOf(*m_currentBefore) : -1;
    if (current >= 0) {
        const int column = std::min(m_columnBefore, m_model.columnCount() - 1);
        m_selection->setCurrentIndex(m_model.index(current, column), QItemSelectionModel::NoUpdate);
    }
    std::vector<ThreadRef> chosen = come;
    if (chosen.empty()) {
        std::ranges::copy_if(m_before, std::back_inserter(chosen),
                             [this](const ThreadRef& one) { return m_model.rowOf(one) >= 0; });
    }
    const bool wereDeleted =
        chosen.empty() && !m_before.empty() && !m_model.isInWorkbox(m_before.front());
    if (wereDeleted && m_model.rowCount() > 0) {
        const int row = std::clamp(m_firstRowBefore, 0, m_model.rowCount() - 1);
        chosen.push_back(m_model.item(row).ref);
    }
    choose(chosen);
    Q_EMIT changed(); // the views have forgotten the selection without saying so
}

} // namespace otherskein::app
