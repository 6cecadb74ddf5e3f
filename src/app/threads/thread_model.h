#pragma once

#include "app/threads/thread_columns.h"
#include "app/threads/threads_state.h"
#include "workbox/document.h"

#include <QAbstractTableModel>
#include <QHash>

namespace otherskein::app {

/// The threads that the state asks for, in its order: serves the wall (through `item`) and the
/// table. A cell that is set becomes an edit of the document.
///
/// An edit never takes a thread out of view while it is worked on: what was shown, or has just been
/// added, stays shown until the state changes, and the table keeps its order until then too. The
/// wall takes an edited colour to its new place.
class ThreadModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    explicit ThreadModel(workbox::Document& document, QObject* parent = nullptr);

    void setState(const ThreadsState& state);
    [[nodiscard]] const ThreadsState& state() const { return m_state; }

    [[nodiscard]] const ThreadItem& item(int row) const;
    /// -1 when it is not shown.
    [[nodiscard]] int rowOf(const ThreadRef& thread) const;
    [[nodiscard]] bool isInWorkbox(const ThreadRef& thread) const {
        return m_document.thread(thread.card, thread.id) != nullptr;
    }
    /// Threads on the card in question, or on all, shown or not.
    [[nodiscard]] int totalCount() const { return static_cast<int>(m_items.size()); }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

  Q_SIGNALS:
    /// Rows are about to come, go or change places at once; then, when that is done.
    /// (A view forgets its selection in between.)
    void aboutToRearrange();
    /// `come` are threads that were not there before an edit, such as those that undo brought back.
    void rearranged(const std::vector<otherskein::app::ThreadRef>& come);
    void refused(const QString& line);

  private:
    workbox::Document& m_document;
    ThreadsState m_state;
    std::vector<ThreadItem> m_items; ///< of the card in question, or of all, in workbox order
    std::vector<int> m_rows;         ///< into m_items
    std::vector<QString> m_extraColumns;
    mutable QHash<qint64, int> m_rowOfId; ///< made when first asked for

    enum class WhatCame { Cards, Threads };

    void load();
    /// After cards or threads came or went.
    void reload(WhatCame what);
    void cardEdited(workbox::CardId card);
    void keepWhatIsShown();
    void takeOrder(std::vector<int> rows);
};

} // namespace otherskein::app
