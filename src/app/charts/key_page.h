#pragma once

#include "colourway/quantities.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QTimer;

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
    [[nodiscard]] KeyModel& model() const { return *m_model; }

  private:
    ChartDesk& m_desk;
    KeyModel* m_model;
    QLabel* m_total;
    KeyTable* m_table;
    KeyEditors* m_editors;

    QLabel* m_skeins;
    QPushButton* m_list;
    QTimer* m_soon; ///< a stroke need not wait for the sums
    colourway::Quantities m_quantities;

    void showTotal();
    void showSkeins();
    void openList();
    [[nodiscard]] colourway::Usage usage() const;
};

} // namespace otherskein::app
