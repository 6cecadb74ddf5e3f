#pragma once

#include <QListView>

namespace otherskein::app {

/// Small pictures that fill its width row by row, to pick several from: a click or Space picks one
/// or lets it go, arrow keys only move, with Shift either picks all in
/// between.
class PickList : public QListView {
    Q_OBJECT

  public:
    explicit PickList(QWidget* parent = nullptr);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

  private:
    /// All from the current one to that, both with it; those picked before stay so.
    void pickUpTo(const QModelIndex& index);
};

} // namespace otherskein::app
