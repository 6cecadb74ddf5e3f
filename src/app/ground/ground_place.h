#pragma once

#include "app/frame/session.h"
#include "app/ground/ground_desk.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QStackedWidget;

namespace otherskein::app {

class ChartOnGround;
class GroundMatrix;
class GroundSide;
class Segmented;

/// Ground: does it show on this fabric, and is there enough? Threads against grounds, each cell
/// stitched; for a chart what is lost and what to do, how large it gets and how much thread it
/// takes.
class GroundPlace : public QWidget {
    Q_OBJECT

  public:
    explicit GroundPlace(Session& session, QWidget* parent = nullptr);

    [[nodiscard]] const GroundState& state() const { return m_desk->state(); }
    void ask(const GroundState& state) { m_desk->ask(state); }
    [[nodiscard]] GroundDesk& desk() const { return *m_desk; }
    /// The dialog for fabrics; one at a time.
    void openGrounds();
    void openMeasures();

  Q_SIGNALS:
    void told(const QString& text);
    void refused(const QString& line);
    void demoAsked();

  protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

  private:
    Session& m_session;
    GroundDesk* m_desk;
    GroundSide* m_side;
    QLabel* m_title;
    Segmented* m_page;
    QComboBox* m_order;
    QStackedWidget* m_pages;
    GroundMatrix* m_matrix;
    ChartOnGround* m_chart;
    QWidget* m_empty;

    void build();
    void buildEmpty();
    void connectAll();
    void connectWays();
    void showDesk();
};

} // namespace otherskein::app
