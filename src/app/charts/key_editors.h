#pragma once

#include "app/charts/key_model.h"

#include <QWidget>

class QLabel;
class QMenu;
class QPushButton;
class QSpinBox;

namespace otherskein::app {

class SymbolButton;
class ThreadField;

/// Under the key: what can be changed in the chosen row, and in the key as a whole.
class KeyEditors : public QWidget {
    Q_OBJECT

  public:
    KeyEditors(ChartDesk& desk, const KeyModel& model, QWidget* parent = nullptr);

    void editThread();
    void addRow();
    /// Refuses, with the reason, a row that something is worked in.
    void removeRow();
    /// Everything of the chosen row becomes `row`'s.
    void replaceWith(chart::KeyIndex row);

  private:
    ChartDesk& m_desk;
    const KeyModel& m_model;
    ThreadField* m_thread;
    SymbolButton* m_symbol;
    QSpinBox* m_strands;
    QPushButton* m_replace;
    QPushButton* m_remove;
    QPushButton* m_add;
    QMenu* m_others;
    QLabel* m_hint;  ///< of a traced row whose thread is not known
    int m_round = 0; ///< steps of the strands box that follow each other are one edit

    void showRow();
    void showHint();
    void fillOthers();
    [[nodiscard]] QString nameOfRow() const;
};

} // namespace otherskein::app
