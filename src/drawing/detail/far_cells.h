#pragma once

#include "drawing/detail/cell_raster.h"

#include <QImage>

namespace otherskein::drawing::detail {

/// Draws a picture of the chart with texels of `scale` device pixels (0.6 and more), each pixel the
/// mean light of the texels under it, so that nothing flickers at any zoom. Fills all of `inside`;
/// beyond the picture lies `ground`.
void paintFar(const Frame& frame, const QRect& inside, const QImage& picture, double scale,
              const QPoint& origin, QRgb ground);

} // namespace otherskein::drawing::detail
