#pragma once

#include "app/frame/panel.h"
#include "app/ground/ground_desk.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QSlider;

namespace otherskein::app {

class PieceFigures;
class Segmented;
class WaysPanel;

/// What is judged and how it is stitched: whose threads, which grounds, count, strands; then what
/// follows for the chart.
class GroundSide : public Panel {
    Q_OBJECT

  public:
    explicit GroundSide(Session& session, QWidget* parent = nullptr);

    void show(GroundDesk& desk);
    using QWidget::show;
    [[nodiscard]] WaysPanel& ways() const { return *m_ways; }
    [[nodiscard]] PieceFigures& piece() const { return *m_piece; }

  Q_SIGNALS:
    void asked(const otherskein::app::GroundState& state);
    void chartChosen(otherskein::workbox::ChartId id);
    void groundsAsked();  ///< enter or change grounds
    void measuresAsked(); ///< widths of strands, waste

  private:
    Session& m_session;
    GroundState m_state;
    QComboBox* m_of;
    QComboBox* m_colourway;
    QCheckBox* m_ownCount;
    QSlider* m_count;
    QLabel* m_countText;
    Segmented* m_over;
    QCheckBox* m_keyStrands;
    QSlider* m_strands;
    QLabel* m_strandsText;
    QLabel* m_coverText;
    PieceFigures* m_piece;
    WaysPanel* m_ways;

    template <typename Change>
    void askWith(Change change);
    void build();
    void connectAll();
    void showSources();
    void showColourways();
    void showStitching(const GroundDesk& desk);
};

} // namespace otherskein::app
