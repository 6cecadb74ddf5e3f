#pragma once

#include "app/frame/panel.h"

class QStackedWidget;

namespace otherskein::app {

class ChartDesk;
class KeyPage;
class MotifPage;
class Segmented;

/// The trailing column of Charts: the key or the motifs, and the way on to Recolour.
class ChartSide : public Panel {
    Q_OBJECT

  public:
    explicit ChartSide(ChartDesk& desk, QWidget* parent = nullptr);

  Q_SIGNALS:
    void recolourAsked();

  private:
    ChartDesk& m_desk;
    Segmented* m_page;
    QStackedWidget* m_pages;

    void showState();
};

} // namespace otherskein::app
