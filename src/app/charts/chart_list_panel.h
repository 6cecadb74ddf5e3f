#pragma once

#include "app/charts/chart_list.h"
#include "app/frame/panel.h"

#include <QLabel>

namespace otherskein::app {

/// The leading column of Charts: which chart, and what is done with charts as a whole.
class ChartListPanel : public Panel {
    Q_OBJECT

  public:
    explicit ChartListPanel(Session& session, QWidget* parent = nullptr);

    [[nodiscard]] ChartList& list() const { return *m_list; }
    /// What a chart picture is; of no use beside a chart that was traced.
    void showAboutPictures(bool on) { m_aboutPictures->setVisible(on); }

  Q_SIGNALS:
    void openAsked();
    void traceAsked();
    void exportAsked();
    void deleteAsked();

  private:
    ChartList* m_list;
    QLabel* m_aboutPictures;

    void makeButtons(QVBoxLayout& column);
};

} // namespace otherskein::app
