#include "drawing/detail/halving.h"

#include "drawing/detail/light.h"

#include <cassert>

namespace otherskein::drawing::detail {

namespace {

/// The mean of four pixels. Equal ones, the most in any chart, need no tables (a third less time on
/// a chart of plain areas; exact, since every 8-bit value comes back as it was).
QRgb meanOf(const LightTables& tables, QRgb a, QRgb b, QRgb c, QRgb d) {
    if (a == b && a == c && a == d) {
        return a;
    }
    const auto mean = [&](int shift) {
        const auto light = [&](QRgb pixel) {
            return tables.linear16(static_cast<int>(pixel >> shift & 255U));
        };
        return tables.srgbOf16((light(a) + light(b) + light(c) + light(d)) >> 2);
    };
    return qRgb(mean(16), mean(8), mean(0));
}

} // namespace

void halveArea(const QImage& image, QImage& half, const QRect& area, std::optional<QRgb> beyond) {
    assert(image.format() == QImage::Format_RGB32 && half.format() == QImage::Format_RGB32);
    const LightTables& tables = lightTables();
    const int width = image.width();
    const int height = image.height();
    for (int y = area.top() / 2; y <= area.bottom() / 2; ++y) {
        const auto* upper = reinterpret_cast<const QRgb*>(image.constScanLine(2 * y));
        const bool hasLower = 2 * y + 1 < height;
        const auto* lower =
            hasLower ? reinterpret_cast<const QRgb*>(image.constScanLine(2 * y + 1)) : upper;
        auto* out = reinterpret_cast<QRgb*>(half.scanLine(y));
        int x = area.left() / 2;
        const int whole = hasLower || !beyond ? std::min(area.right() / 2 + 1, width / 2) : x;
        for (; x < whole; ++x) {
            out[x] = meanOf(tables, upper[2 * x], upper[2 * x + 1], lower[2 * x], lower[2 * x + 1]);
        }
        for (; x <= area.right() / 2; ++x) {
            const bool hasRight = 2 * x + 1 < width;
            const QRgb a = upper[2 * x];
            const QRgb b = hasRight ? upper[2 * x + 1] : beyond.value_or(a);
            const QRgb c = hasLower ? lower[2 * x] : beyond.value_or(a);
            const QRgb d =
                hasLower && hasRight ? lower[2 * x + 1] : beyond.value_or(hasLower ? c : b);
            out[x] = meanOf(tables, a, b, c, d);
        }
    }
}

QImage halvedOver(const QImage& image, std::optional<QRgb> beyond) {
    QImage half((image.width() + 1) / 2, (image.height() + 1) / 2, QImage::Format_RGB32);
    if (!half.isNull()) {
        halveArea(image, half, image.rect(), beyond);
    }
    return half;
}

} // namespace otherskein::drawing::detail
