#pragma once

#include "app/ground/ground_desk.h"

#include <QWidget>

class QDoubleSpinBox;
class QLabel;
class QPushButton;

namespace otherskein::app {

class Segmented;

/// How large the chart gets on the ground in use, whether the pieces are large enough, and how many
/// skeins to buy.
class PieceFigures : public QWidget {
    Q_OBJECT

  public:
    PieceFigures(Session& session, QWidget* parent = nullptr);

    void show(const GroundDesk& desk);
    using QWidget::show;

  Q_SIGNALS:
    void asked(const otherskein::app::GroundState& state);

  private:
    Session& m_session;
    GroundState m_state;
    QLabel* m_heading;
    QLabel* m_stitched;
    QLabel* m_needed;
    QLabel* m_fits;
    QLabel* m_skeins;
    QDoubleSpinBox* m_margin;
    Segmented* m_unit;
    QPushButton* m_list;
    std::function<void()> m_openList;

    QLabel* addFigure(const QString& text);
    void showPieces(const GroundDesk& desk);
    void showSkeins(const GroundDesk& desk);
};

} // namespace otherskein::app
