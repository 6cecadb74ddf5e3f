#pragma once

#include "colour/lab.h"
#include "colour/srgb.h"

#include <QString>

namespace otherskein::thread {

/// The fabric that is stitched on.
struct Ground {
    QString name;
    colour::Lab lab;
    colour::Srgb8 shown; ///< as entered, for display
    int count = 36;      ///< threads (or holes) per inch
    int over = 2;        ///< fabric threads that one stitch covers each way, 1 or 2
    QString weave;       ///< free text: evenweave, linen, block weave, …

    bool operator==(const Ground&) const = default;
};

/// A ground whose colour was entered as sRGB.
[[nodiscard]] Ground groundOfSrgb(QString name, const colour::Srgb8& srgb);

namespace limits {
inline constexpr int kLeastCount = 5;
inline constexpr int kMostCount = 80;
inline constexpr int kMostOver = 2;
} // namespace limits

/// Side of one stitch's cell, millimetres.
[[nodiscard]] double cellSideMm(const Ground& ground);

} // namespace otherskein::thread
