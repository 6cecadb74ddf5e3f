#pragma once

#include "app/charts/chart_desk.h"
#include "app/frame/panel.h"

class QCheckBox;
class QPushButton;

namespace otherskein::app {

class ChartCanvas;
class MendCanvas;
class Segmented;

/// Above the chart: its name, what lies under the pointer, how it is looked at and mended.
class ChartBar : public Panel {
    Q_OBJECT

  public:
    ChartBar(ChartDesk& desk, MendCanvas& canvas, QWidget* parent = nullptr);

    /// The zoom buttons are about this one; MendCanvas until another is named.
    void setZoomed(ChartCanvas& canvas) { m_zoomed = &canvas; }
    /// A menu of charts, for a window that has no room for their list.
    void showMenuOfCharts(bool on);

  Q_SIGNALS:
    void chartChosen(); ///< from the menu
    void openAsked();
    void traceAsked();

  private:
    ChartDesk& m_desk;
    MendCanvas& m_canvas;
    QLabel* m_name;
    QLabel* m_under;
    Segmented* m_look;
    Segmented* m_mode;
    QCheckBox* m_grid;
    QCheckBox* m_outlines;
    QPushButton* m_charts;
    QPushButton* m_beside; ///< of traced charts only
    Segmented* m_pageView; ///< while the chart is beside its page
    ChartCanvas* m_zoomed;
    QWidget* m_zoom; ///< its buttons

    void layOut();
    void connectParts();
    void fillCharts();
    void showState();
    void showCell();
    [[nodiscard]] QString underPointer() const;
    QPushButton* zoomButton(const QString& text, const QString& name, const QString& toolTip);
};

/// What a mode is called, and what it does in a few words.
[[nodiscard]] QString modeName(MendMode mode);
[[nodiscard]] QString modeAdvice(MendMode mode);

} // namespace otherskein::app
