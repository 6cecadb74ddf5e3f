#pragma once

#include "app/threads/wall_grid.h"

#include <QListView>

namespace otherskein::app {

class ThreadModel;

/// The wall of chips. Paints what is visible and nothing else. Built on QListView, so that screen
/// readers are told of its items, but lays them out by WallGrid.
class WallView : public QListView {
    Q_OBJECT

  public:
    explicit WallView(ThreadModel& model, QWidget* parent = nullptr);

    void setChipWidth(int pixels);
    [[nodiscard]] int chipWidth() const { return m_chipWidth; }

    [[nodiscard]] QRect visualRect(const QModelIndex& index) const override;
    [[nodiscard]] QModelIndex indexAt(const QPoint& point) const override;
    void scrollTo(const QModelIndex& index, ScrollHint hint = EnsureVisible) override;
    void doItemsLayout() override;
    void keyboardSearch(const QString& text) override;

  Q_SIGNALS:
    /// Double click or Enter on a chip.
    void substituteAsked();
    void deleteAsked();
    /// Plus, minus, or the wheel with Control held.
    void chipWidthAsked(int pixels);
    /// Letters typed over the wall belong into the search field.
    void searchTyped(const QString& text);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void updateGeometries() override;
    [[nodiscard]] QModelIndex moveCursor(CursorAction action,
                                         Qt::KeyboardModifiers modifiers) override;
    void setSelection(const QRect& rect, QItemSelectionModel::SelectionFlags flags) override;
    [[nodiscard]] QRegion visualRegionForSelection(const QItemSelection& selection) const override;
    [[nodiscard]] int horizontalOffset() const override { return 0; }
    [[nodiscard]] int verticalOffset() const override;

  private:
    ThreadModel& m_model;
    int m_chipWidth = 62;
    WallGrid m_grid;

    /// The content's top left corner in the viewport.
    [[nodiscard]] QPoint origin() const;
    void layOut();
};

} // namespace otherskein::app
