#pragma once

#include "chart/grid.h"
#include "drawing/chart_painter.h"

#include <QCursor>
#include <QWidget>

#include <optional>

namespace otherskein::app {

/// A widget that looks at a chart: pan and zoom by wheel, pinch, drag and keys. Subclasses paint
/// and may take the left button for themselves.
class ChartCanvas : public QWidget {
    Q_OBJECT

  public:
    explicit ChartCanvas(QWidget* parent = nullptr);

    /// Of the chart looked at; fits it into the window when the size changes.
    void setGridSize(int columns, int rows);
    [[nodiscard]] const drawing::View& view() const { return m_view; }
    void setView(const drawing::View& view);
    /// Shows the whole chart, and keeps to that while the window is resized.
    void fit();
    /// About the middle of the widget.
    void zoomBy(double factor);
    /// None outside the chart.
    [[nodiscard]] std::optional<chart::Cell> cellAt(const QPointF& widgetPoint) const;

  Q_SIGNALS:
    void viewChanged();

  protected:
    virtual void paintChart(QPainter& painter, const QRect& clip) = 0;
    /// The left button. Answering true takes the gesture up to its release; else it pans.
    virtual bool pressed(const QPointF& point, Qt::KeyboardModifiers modifiers);
    virtual void dragged(const QPointF& point, Qt::KeyboardModifiers modifiers);
    virtual void released(const QPointF& point);
    /// The pointer moves with no button down.
    virtual void hovered(const QPointF& point);

    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

  private:
    drawing::View m_view;
    int m_columns = 0;
    int m_rows = 0;
    bool m_fitted = true;
    enum class Gesture { None, Pan, Taken } m_gesture = Gesture::None;
    QPointF m_last;
    QCursor m_cursorBefore;   ///< of a pan
    bool m_focusSeen = false; ///< the focus came by key
};

} // namespace otherskein::app
