#pragma once

#include <QWidget>

class QLabel;

namespace otherskein::app {

class ChartDesk;
class KeyEditors;
class KeyModel;
class KeyTable;

/// The key of the chart: how much of what, and the editors of the chosen row.
class KeyPage : public QWidget {
    Q_OBJECT

  public:
    explicit KeyPage(ChartDesk& desk, QWidget* parent = nullptr);

    [[nodiscard]] KeyTable& table() const { return *m_table; }
    [[nodiscard]] KeyEditors& editors() const { return *m_editors; }

  private:
    KeyModel* m_model;
    QLabel* m_total;
    KeyTable* m_table;
    KeyEditors* m_editors;

    void showTotal();
};

} // namespace otherskein::app
