#pragma once

#include "app/threads/card_import.h"
#include "app/threads/threads_state.h"

#include <QWidget>

class QLabel;
class QStackedWidget;

namespace otherskein::app {

class AddRow;
class ChosenThreads;
class ImportReport;
class TableView;
class ThreadModel;
class ThreadsBar;
class WallView;

/// The middle of Threads: the bar, the row to add a thread, the wall or the table or why there is
/// neither, the report of an import.
class ThreadsMiddle : public QWidget {
    Q_OBJECT

  public:
    ThreadsMiddle(ThreadModel& model, ChosenThreads& chosen, workbox::Document& document,
                  QWidget* parent = nullptr);

    /// Shows the model's state.
    void showState();
    void showCounts(int chosen);
    void showReport(const std::vector<ImportOutcome>& outcomes);
    void openAddRow();
    void focusSearch();

  Q_SIGNALS:
    void stateAsked(const otherskein::app::ThreadsState& state);
    void substituteAsked();
    void deleteAsked();
    void menuAsked(const QPoint& globalPosition);
    void refused(const QString& line);

  private:
    ThreadModel& m_model;
    ChosenThreads& m_chosen;
    workbox::Document& m_document;
    ThreadsBar* m_bar;
    AddRow* m_addRow;
    QStackedWidget* m_pages;
    WallView* m_wall;
    TableView* m_table;
    QLabel* m_nothing;
    ImportReport* m_report;
    ThreadsState m_shown;

    void connectBar();
    void connectViews();
    [[nodiscard]] QWidget* view() const;
    void scrollToAnswer();
    [[nodiscard]] QString whyNothing() const;
    template <typename Change>
    void askFor(const Change& change);
};

} // namespace otherskein::app
