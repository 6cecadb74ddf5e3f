#pragma once

#include "app/ground/ground_desk.h"

#include <QTableView>

namespace otherskein::app {

class GroundMatrixModel;

/// Threads down, grounds across; each cell stitched on its cloth with figures and a verdict. Arrow
/// keys move, Enter or a click on a heading takes the ground up.
class GroundMatrix : public QTableView {
    Q_OBJECT

  public:
    explicit GroundMatrix(QWidget* parent = nullptr);

    void show(const GroundDesk& desk);
    using QWidget::show;

  Q_SIGNALS:
    void groundChosen(int column);
    /// The thread of the current row.
    void rowChosen(int row);
    void substituteAsked(int row);

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

  private:
    GroundMatrixModel* m_model;

    void share();
};

} // namespace otherskein::app
