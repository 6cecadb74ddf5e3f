#pragma once

#include "app/tracing/grid_edges.h"

#include <QPixmap>
#include <QWidget>

#include <memory>
#include <optional>

namespace otherskein::app {

/// A page with the grids that were found on it outlined and numbered. A click on one, or its number
/// on the keyboard, chooses it or lets it go. The wheel, + and - zoom, 0 shows the whole page, a
/// drag moves it. Ctrl and an arrow put an edge of the chosen grid a line further out, with Shift
/// further in.
class PagePreview : public QWidget {
    Q_OBJECT

  public:
    explicit PagePreview(QWidget* parent = nullptr);

    /// `chosen[i]` belongs to `grids[i]`. Null: there is no page to show.
    void show(const std::shared_ptr<const trace::Page>& page,
              const std::vector<trace::FoundGrid>& grids, const std::vector<bool>& chosen);
    /// Where a grid lies in the widget; for tests.
    [[nodiscard]] QPolygonF outlineOf(std::size_t grid) const;
    /// About the middle of what is seen; 0 shows the whole page.
    void zoomBy(double factor);
    [[nodiscard]] double zoom() const { return m_zoom; }

  Q_SIGNALS:
    void toggled(int grid);
    void confirmed(); ///< by Enter
    void edgeMoved(otherskein::app::GridSide side, int by);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    std::shared_ptr<const trace::Page> m_page;
    std::vector<trace::FoundGrid> m_grids;
    std::vector<bool> m_chosen;
    QPixmap m_shown;    ///< the page in the size of the widget, or its own where it is zoomed
    double m_zoom = 1;  ///< 1 shows the whole page
    QPointF m_middle{}; ///< of what is seen, from the page's middle, in widths of the whole page
    struct Drag {
        QPointF last;
        bool moves = false; ///< it is no click any more
    };
    std::optional<Drag> m_drag;

    [[nodiscard]] QRectF wholeRect() const;
    [[nodiscard]] QRectF pageRect() const;
    void zoomAt(const QPointF& place, double factor);
    void moveBy(const QPointF& pixels);
    void keepInSight();
    void toggleAt(const QPointF& place);
    void paintGrid(QPainter& painter, std::size_t grid) const;
};

} // namespace otherskein::app
