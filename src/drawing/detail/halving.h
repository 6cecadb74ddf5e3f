#pragma once

#include <QImage>

#include <optional>

namespace otherskein::drawing::detail {

/// Half the size each way, rounded up, averaged in linear light. Beyond an odd edge lies `beyond`;
/// without it the average is of what is there.
[[nodiscard]] QImage halvedOver(const QImage& image, std::optional<QRgb> beyond);
/// The same for those pixels of `half` that `area` of `image` has a part in.
void halveArea(const QImage& image, QImage& half, const QRect& area, std::optional<QRgb> beyond);

} // namespace otherskein::drawing::detail
