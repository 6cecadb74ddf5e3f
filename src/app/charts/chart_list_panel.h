#pragma once

#include "app/charts/chart_list.h"
#include "app/frame/panel.h"

namespace otherskein::app {

/// The leading column of Charts: which chart, and what is done with charts as a whole.
class ChartListPanel : public Panel {
    Q_OBJECT

  public:
    explicit ChartListPanel(Session& session, QWidget* parent = nullptr);

    [[nodiscard]] ChartList& list() const { return *m_list; }

  Q_SIGNALS:
    void openAsked();
    void traceAsked();
    void exportAsked();
    void deleteAsked();

  private:
    ChartList* m_list;

    void makeButtons(QVBoxLayout& column);
};

} // namespace otherskein::app
