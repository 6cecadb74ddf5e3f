#include "drawing/detail/cloth_surface.h"
#include "drawing/detail/relief.h"
#include "drawing/detail/resampling.h"

#include <algorithm>
#include <cassert>

namespace otherskein::drawing::detail {

ClothRelief clothRelief(int width, int height, const Cloth& cloth, int place) {
    const ClothSurface& surface = clothSurface(cloth);
    assert(width > 0 && height > 0 && place >= 0 && place < surface.repeat * surface.repeat);
    ClothRelief relief{width, height, {}, surface.brightestAt(std::min(width, height))};
    relief.shade.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const int side = surface.side();
    const int left = place % surface.repeat * surface.texels;
    const int top = place / surface.repeat * surface.texels;
    const std::vector<Sources> columns = sourcesOf(surface.texels, width);
    const int margin = 1; // drawn out, the cell's edge lies between it and its neighbour
    std::vector<float> row(static_cast<std::size_t>(surface.texels + 2 * margin + 1));
    for (const Sources& rows : sourcesOf(surface.texels, height)) {
        std::ranges::fill(row, 0.0F);
        for (std::size_t j = 0; j < rows.share.size(); ++j) {
            const int y = (top + rows.first + static_cast<int>(j) + side) % side;
            const float* line = surface.shade.data() + static_cast<std::ptrdiff_t>(y) * side;
            const float share = rows.share[j];
            float* inside = row.data() + margin;
            for (int x = 0; x < surface.texels; ++x) {
                inside[x] += share * line[left + x];
            }
            row.front() += share * line[(left + side - 1) % side];
            inside[surface.texels] += share * line[(left + surface.texels) % side];
        }
        for (const Sources& column : columns) {
            float sum = 0;
            for (std::size_t i = 0; i < column.share.size(); ++i) {
                sum += column.share[i] * row[static_cast<std::size_t>(column.first + margin) + i];
            }
            relief.shade.push_back(sum);
        }
    }
    return relief;
}

Lighting lightingOf(const Light& colour, float brightest, float loss) {
    // One channel may reach its end before the others without anybody seeing it: half the strongest
    // channel, half the luminance.
    const float luminance = 0.2126F * colour.r + 0.7152F * colour.g + 0.0722F * colour.b;
    const float peak = std::max((std::max({colour.r, colour.g, colour.b}) + luminance) / 2, 1e-6F);
    const float above = std::max(brightest - 1, 1e-6F);
    // gain · brightest + base reaches white at most, with gain + base = 1 - loss in the mean.
    const float room = 1 / peak;
    if (1 + above <= room) {
        return {};
    }
    const float gain = std::min(1.0F, (room - 1 + loss) / above);
    const float darker = std::max(0.0F, 1 + gain * above - room);
    return {gain, 1 - gain - darker};
}

} // namespace otherskein::drawing::detail
