#pragma once

#include "colour/lab.h"

#include <QImage>

#include <cstddef>
#include <vector>

namespace otherskein::colourway {

struct MainColour {
    colour::Lab lab;
    double share = 0; ///< of the picture's opaque pixels, 0..1
};

/// Up to `count` main colours of a picture, largest share first: clusters in CIELAB (k-means from a
/// spread, deterministic start), those nearer than ΔE00 5 to each other joined. An embedded profile
/// is honoured. Fully transparent pixels do not count. Empty for a picture without opaque pixels.
[[nodiscard]] std::vector<MainColour> mainColours(const QImage& picture, std::size_t count);

} // namespace otherskein::colourway
