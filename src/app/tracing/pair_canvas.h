#pragma once

#include "app/chart_view/chart_canvas.h"
#include "app/tracing/traced_desk.h"

namespace otherskein::app {

/// One half of a traced chart beside its page: the page as printed, or the cells as traced.
/// Doubtful cells are framed in both, the current one more strongly. A click makes a cell the
/// current one, the arrow keys step to the next.
class PairCanvas : public ChartCanvas {
    Q_OBJECT

  public:
    enum class Half { Page, Cells };
    PairCanvas(TracedDesk& traced, Half half, QWidget* parent = nullptr);

    /// Brings the cell into sight; `large` enough to be read.
    enum class Size { AsIs, Readable };
    void reveal(const chart::Cell& cell, Size size);

  protected:
    void paintChart(QPainter& painter, const QRect& clip) override;
    bool pressed(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void dragged(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void released(const QPointF& point) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Press {
        QPointF at;
        QPointF last;
        bool moved = false;
    };

    TracedDesk& m_traced;
    Half m_half;
    drawing::ChartPainter m_painter;
    std::optional<Press> m_press;

    void takeChart();
    void takeChange(const chart::Area& cells, bool keyToo);
    [[nodiscard]] drawing::Paint paintNow() const;
    void frameDoubtful(QPainter& painter, const QRect& clip);
    void frameCurrent(QPainter& painter, const chart::Cell& cell);
    void keepFilled(drawing::View& shown) const;
    void step(int columns, int rows);
};

} // namespace otherskein::app
