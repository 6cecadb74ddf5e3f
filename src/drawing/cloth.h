#pragma once

#include "thread/ground.h"

namespace otherskein::drawing {

/// The cloth under the stitches, as far as a picture shows it.
struct Cloth {
    thread::Weave weave = thread::Weave::Even;
    /// Fabric threads that a stitch covers each way, 1 or 2. On block weave a cell is always one
    /// block.
    int over = 2;

    bool operator==(const Cloth&) const = default;
};

[[nodiscard]] inline Cloth clothOf(const thread::Ground& ground) {
    return {thread::weaveOf(ground.weave), ground.over};
}

/// After how many cells, each way, the picture of a cloth begins anew: 1 where every cell is alike,
/// 2 over single threads, which go over and under by turns, 8 for linen and its slubs.
[[nodiscard]] int repeatOf(const Cloth& cloth);

} // namespace otherskein::drawing
