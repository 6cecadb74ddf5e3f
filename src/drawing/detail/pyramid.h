#pragma once

#include "drawing/flat.h"

#include <vector>

namespace otherskein::drawing::detail {

/// A chart at one pixel a stitch, at half of that, at a quarter …, each made when first asked for.
class Pyramid {
  public:
    /// Forgets all pictures.
    void reset();
    /// Paints the cells of `area` anew in the pictures that there are. Colours as before.
    void setCells(const chart::Grid& grid, const Paint& paint, const chart::Area& area);
    /// `number` 0 is one pixel a stitch. The grid and colours are those since the last reset.
    [[nodiscard]] const QImage& level(const chart::Grid& grid, const Paint& paint, int number);

  private:
    std::vector<QImage> m_levels;
};

} // namespace otherskein::drawing::detail
