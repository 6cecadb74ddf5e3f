#pragma once

#include "app/threads/threads_state.h"

#include <QTableView>

#include <optional>

namespace otherskein::app {

class ThreadModel;

/// The threads as a table that is edited in place. Its header sorts: up, down, and back to the
/// order of the wall.
class TableView : public QTableView {
    Q_OBJECT

  public:
    explicit TableView(ThreadModel& model, QWidget* parent = nullptr);

    /// Shows the columns that mean something in the model's state.
    void takeState();

  Q_SIGNALS:
    void deleteAsked();
    void sortAsked(const std::optional<otherskein::app::HeaderSort>& sort);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    ThreadModel& m_model;
    int m_sizedColumns = 0; ///< those that have had their first width; the rest is the user's
};

} // namespace otherskein::app
