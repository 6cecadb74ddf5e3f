#pragma once

#include "app/ground/ground_desk.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QListWidget;
class QSlider;

namespace otherskein::app {

class BeforeAfterCanvas;
class Segmented;

/// The chart on the ground in use, as it looks, by values alone or through colour-blind eyes, with
/// the touching parts that merge there.
class ChartOnGround : public QWidget {
    Q_OBJECT

  public:
    explicit ChartOnGround(QWidget* parent = nullptr);

    void show(const GroundDesk& desk);
    using QWidget::show;
    void choosePart(std::optional<std::size_t> part);

  Q_SIGNALS:
    void asked(const otherskein::app::GroundState& state);
    void partChosen(std::size_t part);
    void dividerMoved(double share);

  private:
    GroundState m_state;
    Segmented* m_sight;
    QComboBox* m_kind;
    QSlider* m_severity;
    QLabel* m_severityText;
    BeforeAfterCanvas* m_canvas;
    QWidget* m_side;
    QLabel* m_count;
    QListWidget* m_list;
    QLabel* m_note;

    void build();
    void connectAll();
    void ask(const colour::Sight& sight);
    void showMerging(const GroundDesk& desk);
};

} // namespace otherskein::app
