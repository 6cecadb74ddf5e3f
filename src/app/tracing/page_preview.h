#pragma once

#include "trace/tracing.h"

#include <QPixmap>
#include <QWidget>

#include <memory>

namespace otherskein::app {

/// A page with the grids that were found on it outlined and numbered. A click on one, or its number
/// on the keyboard, chooses it or lets it go.
class PagePreview : public QWidget {
    Q_OBJECT

  public:
    explicit PagePreview(QWidget* parent = nullptr);

    /// `chosen[i]` belongs to `grids[i]`. Null: there is no page to show.
    void show(const std::shared_ptr<const trace::Page>& page,
              const std::vector<trace::FoundGrid>& grids, const std::vector<bool>& chosen);
    /// Where a grid lies in the widget; for tests.
    [[nodiscard]] QPolygonF outlineOf(std::size_t grid) const;

  Q_SIGNALS:
    void toggled(int grid);
    void confirmed(); ///< by Enter

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    std::shared_ptr<const trace::Page> m_page;
    std::vector<trace::FoundGrid> m_grids;
    std::vector<bool> m_chosen;
    QPixmap m_shown; ///< the page in the size of the widget

    [[nodiscard]] QRectF pageRect() const;
    void paintGrid(QPainter& painter, std::size_t grid) const;
};

} // namespace otherskein::app
