#pragma once

#include "app/chart_view/chart_canvas.h"
#include "colour/sight.h"
#include "colourway/recolour.h"
#include "colourway/ways_out.h"
#include "drawing/chart_painter.h"

#include <memory>

namespace otherskein::app {

/// The chart as charted and recoloured in one view, parted by a line that can be dragged. A click
/// on a stitch chooses its part; the pointer over it tells its threads.
class BeforeAfterCanvas : public ChartCanvas {
    Q_OBJECT

  public:
    explicit BeforeAfterCanvas(QWidget* parent = nullptr);

    /// Takes the chart, its parts and its charted colours from `subject`.
    void setSubject(const std::shared_ptr<const colourway::Subject>& subject,
                    const thread::Ground& ground, int strands);
    /// The same with each row's own strands.
    void setStitched(const std::shared_ptr<const colourway::Subject>& subject,
                     const colourway::Stitched& stitched);
    /// Through which eyes the chart is shown.
    void setSight(const colour::Sight& sight);
    /// The chart as `colourway` works it; none: only as charted.
    void setColourway(const std::optional<colourway::Colourway>& colourway);
    /// What the plate over the recoloured side says.
    void setAfterLabel(const QString& text);

    [[nodiscard]] double divider() const { return m_divider; }
    void setDivider(double share);
    void setChosen(std::optional<std::size_t> part);
    [[nodiscard]] std::optional<std::size_t> partAt(const QPointF& point) const;
    /// Where the line stands, in pixels from the left.
    [[nodiscard]] double dividerX() const { return m_divider * width(); }

  Q_SIGNALS:
    void dividerMoved(double share);
    void partChosen(std::size_t part);

  protected:
    void paintChart(QPainter& painter, const QRect& clip) override;
    bool pressed(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void dragged(const QPointF& point, Qt::KeyboardModifiers modifiers) override;
    void hovered(const QPointF& point) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void leaveEvent(QEvent* event) override;

  private:
    std::shared_ptr<const colourway::Subject> m_subject;
    std::optional<colourway::Colourway> m_colourway;
    colourway::Stitched m_stitched;
    colour::Sight m_sight;
    drawing::Layers m_layers;
    drawing::ChartPainter m_before;
    drawing::ChartPainter m_after;
    std::vector<std::uint32_t> m_partOf; ///< of each cell, as chart/neighbours.h has it
    QString m_afterLabel;
    double m_divider = 0.5;
    std::optional<std::size_t> m_chosen;
    std::optional<std::size_t> m_hovered;
    QPointF m_pressedAt;
    double m_grabbedAt = 0; ///< pixels from the line at which the pointer holds it

    void showBefore(bool anew);
    void showAfter();
    [[nodiscard]] drawing::Paint seenPaint(const chart::Key& key,
                                           const std::vector<colourway::Choice>& ofRows) const;
    [[nodiscard]] bool isOnDivider(const QPointF& point) const;
    [[nodiscard]] QString textOf(std::size_t part) const;
    void paintDivider(QPainter& painter) const;
    void moveDivider(double share);
};

} // namespace otherskein::app
