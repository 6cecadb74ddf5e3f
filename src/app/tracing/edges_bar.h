#pragma once

#include "app/tracing/grid_edges.h"

#include <QWidget>

#include <vector>

class QLabel;
class QPushButton;

namespace otherskein::app {

/// Below the page: one line of cells more or less on each side of a grid that was found too large
/// or too small, and how large the page is shown.
class EdgesBar : public QWidget {
    Q_OBJECT

  public:
    explicit EdgesBar(QWidget* parent = nullptr);

    /// The number of the grid, from 1, and what it is; 0 where none is chosen.
    void show(int grid, int columns, int rows);

  Q_SIGNALS:
    void moved(otherskein::app::GridSide side, int by);
    void zoomAsked(double factor); ///< 0 for the whole page

  private:
    QLabel* m_grid;
    std::vector<QPushButton*> m_buttons; ///< that move edges

    QPushButton* addButton(const QString& text, const QString& name, const QString& toolTip);
};

} // namespace otherskein::app
