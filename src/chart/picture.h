#pragma once

#include "chart/chart.h"

#include <QByteArray>
#include <QString>

#include <optional>

namespace otherskein::chart {

inline constexpr qint64 kMostPictureBytes = 64LL * 1024 * 1024;

/// Reads a chart from its picture and, where there is one, its key.
///
/// Grammar: a PNG (any colour type and depth; 16-bit samples are rounded to 8), one pixel a stitch,
/// at most 2,000 × 2,000, alpha 0 = bare ground, every other pixel fully opaque. What follows the
/// end of the PNG is ignored. With a key, every colour of the picture has a row; rows without
/// stitches stay; each row's `stitches` is counted anew, whatever the file said. Without one, a key
/// is made: a row a colour, in order of first appearance, with a symbol each (A … Z, a … z, A1 …)
/// and neither card nor code.
///
/// Colour: pixels are sRGB; hints alone (gAMA, cHRM, sRGB) change nothing. An embedded ICC profile
/// (iCCP) is honoured: colours become sRGB, relative colorimetric, once; then a colour may be one
/// step of 255 off its key row in each channel, and takes the nearest such row.
///
/// Errors: InputError naming `source` (or `keySource` when the key has more than kMostKeyRows rows,
/// or does not cover the picture, with the colour, its stitches and its first cell): not a PNG,
/// truncated, damaged, animated, too large (seen in the header before memory is spent), half-clear
/// pixels, more than 300 colours (with advice), a profile that is damaged or not for such pixels.
[[nodiscard]] Chart chartFromPicture(const QByteArray& png, const QString& source,
                                     const std::optional<Key>& key = std::nullopt,
                                     const QString& keySource = {});

/// The picture of `chart` as PNG bytes, RGBA, without a profile (sRGB): `chartFromPicture` with the
/// chart's key reads back the same grid. The chart has a cell at least (asserted).
[[nodiscard]] QByteArray pictureBytes(const Chart& chart);

} // namespace otherskein::chart
