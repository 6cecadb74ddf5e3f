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

    [[nodiscard]] KeyPage& key() const { return *m_key; }

  Q_SIGNALS:
    void recolourAsked();

  private:
    ChartDesk& m_desk;
    Segmented* m_page;
    QStackedWidget* m_pages;
    KeyPage* m_key;

    void showState();
};

} // namespace otherskein::app
