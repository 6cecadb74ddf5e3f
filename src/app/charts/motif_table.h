#pragma once

#include <QTableView>

namespace otherskein::app {

class ChartDesk;
class MotifModel;

/// The motifs as a table; what is chosen here is chosen in the chart, and the other way round. A
/// motif is named in place (F2 or a double click).
class MotifTable : public QTableView {
    Q_OBJECT

  public:
    MotifTable(ChartDesk& desk, MotifModel& model, QWidget* parent = nullptr);

    void editName();

  private:
    ChartDesk& m_desk;
    MotifModel& m_model;
    bool m_showing = false; ///< the selection follows the desk just now

    void showChosen();
    void takeChosen();
};

} // namespace otherskein::app
