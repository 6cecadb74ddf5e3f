#pragma once

#include <QByteArray>

namespace otherskein::trace::detail {

/// What a PNG's or JPEG's bytes say of it before it is decoded. The decoders speak of flaws on the
/// error output, and draw a cut JPEG's missing part grey.
enum class Wholeness {
    Whole,
    CutShort, ///< its end is missing
    Damaged   ///< a PNG whose sums or sizes do not go together
};

/// Looks at a PNG's head alone: 0 × 0 where it is damaged.
struct PngHead {
    quint32 width = 0;
    quint32 height = 0;
};
[[nodiscard]] PngHead pngHead(QByteArrayView bytes);

/// Walks the chunks of a PNG and unpacks its pixels without keeping them, none more than the head
/// asks for.
[[nodiscard]] Wholeness pngWholeness(QByteArrayView bytes);

/// Walks a JPEG's segments up to its end marker; what stands behind that does not count.
[[nodiscard]] Wholeness jpegWholeness(QByteArrayView bytes);

/// The PNG's chunks that its picture needs: what others say cannot trouble a decoder.
[[nodiscard]] QByteArray neededChunks(QByteArrayView png);

} // namespace otherskein::trace::detail
