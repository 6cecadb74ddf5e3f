#pragma once

#include "app/chart_view/chart_canvas.h"
#include "app/charts/chart_desk.h"

#include <QImage>
#include <QLineF>

namespace otherskein::app {

/// The chart in use, to look at and to mend. A stroke shows while it is drawn and becomes one step
/// of the document when the button is let go.
///
/// By key, in any mode but Look: the arrows move the cell, Space works it.
class MendCanvas : public ChartCanvas {
    Q_OBJECT

  public:
    explicit MendCanvas(ChartDesk& desk, QWidget* parent = nullptr);

    /// Under the pointer, or where the arrow keys have gone.
    [[nodiscard]] std::optional<chart::Cell> cell() const { return m_cell; }

  Q_SIGNALS:
    void cellChanged();

  protected:
    void paintChart(QPainter& painter, const QRect& clip) override;
    bool pressed(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void dragged(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void released(const QPointF& point) override;
    void hovered(const QPointF& point) override;
    void keyPressEvent(QKeyEvent* event) override;
    void leaveEvent(QEvent* event) override;

  private:
    /// What has been drawn since the button went down.
    struct Stroke {
        chart::Grid grid;
        chart::Area changed;
        chart::Cell last;
        chart::KeyIndex key = chart::kBare;
    };
    /// A press that is a click, or pans, or draws the line of a cut.
    struct Press {
        QPointF at;
        QPointF last;
        Qt::KeyboardModifiers modifiers;
        bool moved = false;
    };

    ChartDesk& m_desk;
    drawing::ChartPainter m_painter;
    std::vector<std::uint32_t> m_rowOf; ///< the row of each cell, for outlines; made when needed
    QImage m_veil;                      ///< over the motifs that are not chosen; made when needed
    double m_coverage = 1;
    int m_stitches = 0; ///< of the whole chart
    std::optional<chart::Cell> m_cell;
    std::optional<Stroke> m_stroke;
    std::optional<Press> m_press;
    std::optional<QLineF> m_cut; ///< in cells

    void takeChart();
    void takeChange(const chart::Area& cells, bool keyToo);
    void takeState(const ChartsState& before);
    [[nodiscard]] drawing::Paint paintNow();
    void takePaint();
    void setCell(std::optional<chart::Cell> cell);
    [[nodiscard]] bool marksRow() const;
    void outlineRow(QPainter& painter);
    void veilMotifs(QPainter& painter);

    void beginStroke(const chart::Cell& cell);
    void drawTo(const chart::Cell& cell);
    void endStroke();
    void dropStroke();
    void fill(const chart::Cell& cell);
    void pick(const chart::Cell& cell);
    void work(const chart::Cell& cell);
    void click(const Press& press);
    void cut(const QLineF& line);
    void stepCell(int columns, int rows);
};

} // namespace otherskein::app
