#pragma once

#include "drawing/cloth.h"

#include <QImage>
#include <QRgb>

namespace otherskein::drawing {

/// One full cross as it lies on cloth: two legs of twisted plies, the top leg from the lower left
/// to the upper right, with a soft light from the upper left. `side` device pixels square, ARGB32
/// premultiplied: clear where the ground is bare; the share of it that is opaque comes to
/// `coverage` (0..1). Four variants by `variant` % 4 differ a little, as hand work does.
[[nodiscard]] QImage crossPicture(int side, QRgb colour, double coverage, int variant);

/// Bare cloth: `repeatOf(cloth)` cells each way of `side` device pixels each, opaque; tiles without
/// a seam. With the plain cloth that is one cell.
[[nodiscard]] QImage clothPicture(int side, QRgb ground, const Cloth& cloth = {});

} // namespace otherskein::drawing
