#pragma once

#include <QTableView>

namespace otherskein::app {

class ChartDesk;
class KeyModel;

/// The key as a table. The row chosen here is the desk's: it is the one shown in the chart and the
/// one stitched with.
class KeyTable : public QTableView {
    Q_OBJECT

  public:
    KeyTable(ChartDesk& desk, KeyModel& model, QWidget* parent = nullptr);

  Q_SIGNALS:
    /// Enter, F2 or a double click on a row.
    void editAsked();
    void removeAsked();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    /// What is chosen stays in sight.
    void resizeEvent(QResizeEvent* event) override;

  private:
    ChartDesk& m_desk;

    void showState();
};

} // namespace otherskein::app
