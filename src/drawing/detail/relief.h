#pragma once

#include "drawing/cloth.h"
#include "drawing/detail/light.h"

#include <vector>

namespace otherskein::drawing::detail {

/// A cross without its colour: how much of each pixel the thread covers and how the light falls.
struct CrossRelief {
    int width = 0;
    int height = 0;
    std::vector<float> cover; ///< 0..1
    std::vector<float> shade; ///< light on the thread, its mean over all that is covered is 1
    std::vector<float> sheen; ///< 0..1, gloss of the plies
    std::vector<float>
        shadow; ///< light on the cloth beside the thread, its mean over all that is open is 1
    float brightest = 1; ///< the largest shade

    [[nodiscard]] std::size_t size() const { return cover.size(); }
};

/// Pixels need not be square: cells are snapped to whole pixels. `coverage` as in stitch.h.
[[nodiscard]] CrossRelief crossRelief(int width, int height, double coverage, int variant);

/// One cell of woven cloth without its colour. The mean over all places of a cloth is 1.
struct ClothRelief {
    int width = 0;
    int height = 0;
    std::vector<float> shade;
    float brightest = 1; ///< of the whole cloth at this size, so that its cells are lit alike
};
/// `place` 0 … repeat² - 1: row by row among the cells that the cloth repeats (repeatOf).
[[nodiscard]] ClothRelief clothRelief(int width, int height, const Cloth& cloth = {},
                                      int place = 0);
/// Where a cell of a chart lies among those that the cloth repeats; also for cells left of it or
/// above.
[[nodiscard]] inline int placeOf(int column, int row, int repeat) {
    const auto within = [repeat](int i) { return (i % repeat + repeat) % repeat; };
    return within(row) * repeat + within(column);
}

/// shade · gain + base: how a relief is put on a colour. Nothing is brighter than white, so on
/// light colours the relief is flattened and the whole made a little darker; elsewhere gain is 1,
/// base 0 and the mean is the colour itself.
struct Lighting {
    float gain = 1;
    float base = 0;

    [[nodiscard]] float of(float shade) const { return gain * shade + base; }
};
/// `loss`: by how much the mean may be darkened for the relief's sake, in shares of its light.
[[nodiscard]] Lighting lightingOf(const Light& colour, float brightest, float loss);

/// Loss allowed on white thread and on white cloth: about 4 and 1 L*.
inline constexpr float kThreadLoss = 0.10F;
inline constexpr float kClothLoss = 0.025F;
/// Gloss on even the darkest thread, in linear light: black thread is seen by it.
inline constexpr float kSheen = 0.022F;

} // namespace otherskein::drawing::detail
