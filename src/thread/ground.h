#pragma once

#include "colour/lab.h"
#include "colour/srgb.h"

#include <QByteArray>
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
    double widthMm = 0;  ///< of the user's piece; 0: not known
    double heightMm = 0; ///< the same
    QByteArray photo;    ///< PNG or JPEG of the piece, empty when there is none

    bool operator==(const Ground&) const = default;
};

/// A ground whose colour was entered as sRGB.
[[nodiscard]] Ground groundOfSrgb(QString name, const colour::Srgb8& srgb);

/// How a cloth's threads lie, as far as a picture of it shows.
enum class Weave {
    Even,  ///< threads all alike, over and under
    Linen, ///< the same with thick and thin places
    Block  ///< bundles of threads; a stitch goes over one bundle
};
/// Read out of the free text: "linen" or "flax" in it, "block" in it, else even.
[[nodiscard]] Weave weaveOf(const QString& text);

namespace limits {
inline constexpr double kMostPieceMm = 10'000;
inline constexpr qsizetype kMostPhotoBytes = 2 * 1024 * 1024;
inline constexpr int kLeastCount = 5;
inline constexpr int kMostCount = 80;
inline constexpr int kMostOver = 2;
} // namespace limits

/// Side of one stitch's cell, millimetres.
[[nodiscard]] double cellSideMm(const Ground& ground);

} // namespace otherskein::thread
