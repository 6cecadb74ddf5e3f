#include "drawing/stitch.h"

#include "drawing/detail/relief.h"

#include <algorithm>
#include <cassert>

namespace otherskein::drawing {

QImage crossPicture(int side, QRgb colour, double coverage, int variant) {
    assert(side > 0);
    const detail::LightTables& tables = detail::lightTables();
    const detail::CrossRelief relief = detail::crossRelief(side, side, coverage, variant);
    const detail::Light thread = tables.light(colour);
    const detail::Lighting lighting =
        detail::lightingOf(thread, relief.brightest, detail::kThreadLoss);
    QImage image(side, side, QImage::Format_ARGB32_Premultiplied);
    std::size_t at = 0;
    for (int y = 0; y < side; ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < side; ++x, ++at) {
            const float gloss = detail::kSheen * relief.sheen[at];
            const QRgb opaque = tables.rgb(lighting.of(relief.shade[at]) * thread +
                                           detail::Light{gloss, gloss, gloss});
            const int alpha = static_cast<int>(relief.cover[at] * 255 + 0.5F);
            line[x] = qPremultiply(qRgba(qRed(opaque), qGreen(opaque), qBlue(opaque), alpha));
        }
    }
    return image;
}

QImage clothPicture(int side, QRgb ground, const Cloth& cloth) {
    assert(side > 0);
    const detail::LightTables& tables = detail::lightTables();
    const detail::Light colour = tables.light(ground);
    const int repeat = repeatOf(cloth);
    QImage image(repeat * side, repeat * side, QImage::Format_RGB32);
    for (int place = 0; place < repeat * repeat; ++place) {
        const detail::ClothRelief relief = detail::clothRelief(side, side, cloth, place);
        const detail::Lighting lighting =
            detail::lightingOf(colour, relief.brightest, detail::kClothLoss);
        std::size_t at = 0;
        for (int y = 0; y < side; ++y) {
            auto* line = reinterpret_cast<QRgb*>(image.scanLine(place / repeat * side + y)) +
                         static_cast<std::ptrdiff_t>(place % repeat) * side;
            for (int x = 0; x < side; ++x) {
                line[x] = tables.rgb(lighting.of(relief.shade[at++]) * colour);
            }
        }
    }
    return image;
}

} // namespace otherskein::drawing
