#pragma once

#include "app/frame/panel.h"
#include "app/recolour/recolour_state.h"

class QComboBox;
class QLabel;
class QSlider;

namespace otherskein::app {

class Segmented;

/// The line over the picture: which chart, which job, and how finely its motifs are cut.
class RecolourHeader : public Panel {
    Q_OBJECT

  public:
    explicit RecolourHeader(QWidget* parent = nullptr);

    void showCharts(const std::vector<workbox::ChartFacts>& charts);
    /// `step`: of the motif slider; `motifs`: how many that gives.
    void show(const RecolourState& state, int step, std::size_t motifs);

  Q_SIGNALS:
    void chartChosen(otherskein::workbox::ChartId id);
    void jobChosen(otherskein::app::RecolourJob job);
    void stepChosen(int step);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    QComboBox* m_charts;
    Segmented* m_jobs;
    QWidget* m_motifs;
    QSlider* m_slider;
    QLabel* m_few;
    QLabel* m_many;
};

} // namespace otherskein::app
