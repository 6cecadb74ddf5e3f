#pragma once

#include "chart/grid.h"
#include "drawing/chart_painter.h"

#include <QImage>

#include <array>
#include <vector>

namespace otherskein::app {

/// The printed grid of a traced chart, put straight: each cell a square of it. Drawn at any size
/// without shimmer from a pyramid of halved pictures.
class PagePicture {
  public:
    PagePicture() = default;
    /// `cell` px a cell, 1 at least (asserted).
    PagePicture(const QImage& picture, int cell);
    /// What the workbox keeps; null where the picture cannot be read.
    [[nodiscard]] static PagePicture fromBytes(const QByteArray& bytes, int cell);

    [[nodiscard]] bool isNull() const { return m_levels.empty(); }

    /// As much of it as lies inside `clip`; nothing elsewhere.
    void paint(QPainter& painter, const drawing::View& view, const QRectF& clip) const;
    /// One cell with `margin` cells around it, filling `target`; white beyond the picture.
    void paintCell(QPainter& painter, const QRectF& target, const chart::Cell& cell,
                   double margin) const;

    /// A cell in small, its edges left out since lines of the grid lie there: kGlance × kGlance
    /// pixels, three numbers of 0 to 255 each. Grey where the picture ends.
    static constexpr int kGlance = 12;
    using Glance = std::array<float, std::size_t{3} * kGlance * kGlance>;
    [[nodiscard]] Glance glanceAt(const chart::Cell& cell) const;

  private:
    std::vector<QImage> m_levels; ///< each half the size of the one before
    int m_cell = 1;

    [[nodiscard]] std::size_t levelFor(double pixelsACell) const;
    void paintPart(QPainter& painter, const QRectF& target, const QRectF& cells,
                   double pixelsACell) const;
};

/// The sum of squares by which two glances differ.
[[nodiscard]] double difference(const PagePicture::Glance& one, const PagePicture::Glance& other);

} // namespace otherskein::app
