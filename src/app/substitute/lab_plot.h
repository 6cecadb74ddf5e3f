#pragma once

#include "app/substitute/substitute_state.h"

#include <QWidget>

namespace otherskein::app {

/// Where the colours lie: the a*b* plane around the wanted colour, zoomed to the candidates, with
/// the whole plane as a small inset, and a bar of lightness beside it. Shapes tell the kinds apart:
/// a square is the wanted colour, circles are candidates, diamonds the other threads of the chart's
/// key.
class LabPlot : public QWidget {
    Q_OBJECT

  public:
    explicit LabPlot(QWidget* parent = nullptr);

    void setAnswer(const SubstituteAnswer& answer);
    /// The candidate to stand out; -1 for none.
    void setChosen(int row);

    [[nodiscard]] QSize sizeHint() const override { return {236, 296}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    SubstituteAnswer m_answer;
    int m_chosen = -1;
};

} // namespace otherskein::app
