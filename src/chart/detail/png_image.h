#pragma once

#include "chart/detail/png_chunks.h"

#include <QImage>

namespace otherskein::chart {

/// The pixels of a PNG, 16 bits a channel, in the colour space that they stand in.
/// Errors: InputError naming `source`: image data that is damaged, or too little, or too much for
/// the picture's size (a decoder would hand back a part of it), or names a colour that the palette
/// does not have.
[[nodiscard]] QImage decodedPng(const PngParts& parts, const QString& source);

} // namespace otherskein::chart
