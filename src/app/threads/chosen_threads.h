#pragma once

#include "app/threads/thread_item.h"

#include <QItemSelectionModel>
#include <QObject>

#include <optional>
#include <vector>

namespace otherskein::app {

class ThreadModel;

/// The threads that are chosen, shared by the wall and the table. They stay chosen when the order
/// or the filter changes; when they are deleted, the thread that takes their place is chosen;
/// threads that an edit adds or that undo brings back are chosen.
class ChosenThreads : public QObject {
    Q_OBJECT

  public:
    explicit ChosenThreads(ThreadModel& model, QObject* parent = nullptr);

    [[nodiscard]] QItemSelectionModel* selection() const { return m_selection; }
    /// In the order in which they are shown.
    [[nodiscard]] std::vector<ThreadRef> threads() const;
    [[nodiscard]] std::optional<ThreadRef> only() const;
    void choose(const std::vector<ThreadRef>& threads);

  Q_SIGNALS:
    void changed();

  private:
    ThreadModel& m_model;
    QItemSelectionModel* m_selection;
    std::vector<ThreadRef> m_before; ///< while the model rearranges
    std::optional<ThreadRef> m_currentBefore;
    int m_firstRowBefore = -1;
    int m_columnBefore = 0;

    void remember();
    void restore(const std::vector<ThreadRef>& come);
};

} // namespace otherskein::app
