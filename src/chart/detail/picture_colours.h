#pragma once

#include "chart/grid.h"
#include "colour/srgb.h"

#include <QByteArray>
#include <QImage>
#include <QString>

#include <vector>

namespace otherskein::chart {

/// A picture cut into its different colours, in sRGB, in order of first appearance.
struct PictureColours {
    struct Colour {
        colour::Srgb8 srgb;
        Cell first;
        int stitches = 0;
    };
    Grid grid; ///< names `colours`; kBare where the picture is clear
    std::vector<Colour> colours;
};

/// Shapes: `image` is in Format_RGBA64 (asserted). Samples are rounded to 8 bits; with a profile
/// the colours go through it at 16 bits first. Errors: InputError naming `source`: a half-clear
/// pixel, more than kMostKeyRows colours, a profile that cannot be used.
[[nodiscard]] PictureColours coloursOf(const QImage& image, const QByteArray& profile,
                                       const QString& source);

} // namespace otherskein::chart
