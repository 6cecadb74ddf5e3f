#pragma once

#include "app/threads/thread_columns.h"
#include "workbox/document.h"

#include <QWidget>

class QComboBox;
class QGridLayout;
class QLineEdit;

namespace otherskein::app {

class StashBox;
class ThreadModel;

/// Editors for every field of the chosen thread. With several chosen, those that make sense for all
/// of them, each edit being one step.
class ThreadFields : public QWidget {
    Q_OBJECT

  public:
    ThreadFields(const ThreadModel& model, workbox::Document& document, QWidget* parent = nullptr);

    /// All of them are in the model's view. Also called when one of them has changed.
    void show(const std::vector<ThreadRef>& threads);
    using QWidget::show;
    void focusFirst();

  Q_SIGNALS:
    void refused(const QString& line);

  private:
    struct Line {
        Column column;
        QLineEdit* editor;
    };
    struct Choice {
        Column column;
        QComboBox* editor;
    };

    const ThreadModel& m_model;
    workbox::Document& m_document;
    std::vector<ThreadRef> m_threads;
    int m_round = 0; ///< a new one for each choice of threads, so that only its steps merge
    std::vector<Line> m_lines;
    std::vector<Choice> m_choices;
    StashBox* m_stash;
    std::vector<QWidget*> m_onlyForOne; ///< hidden when several threads are chosen

    void addRow(QGridLayout& grid, const QString& label, QWidget* field, bool forSeveral);
    QLineEdit* addLine(Column column, const QString& name);
    QComboBox* addChoice(Column column, const QString& name, int words);
    QWidget* labRow();
    void commit(Column column, const QString& text, const QString& mergeKey = {});
    void fill();
};

} // namespace otherskein::app
