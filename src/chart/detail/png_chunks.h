#pragma once

#include <QByteArray>
#include <QString>

namespace otherskein::chart {

inline constexpr QByteArrayView kPngSignature("\x89PNG\r\n\x1a\n", 8);
inline constexpr qsizetype kPngHeaderBytes = 13;

/// The kinds of pixel, numbered as in the header of a PNG.
enum class PngColour : quint8 { Grey = 0, Rgb = 2, Palette = 3, GreyAlpha = 4, RgbAlpha = 6 };

struct PngHeader {
    int width = 0;
    int height = 0;
    int depth = 8; ///< bits a sample
    PngColour colour = PngColour::RgbAlpha;
    bool interlaced = false;

    [[nodiscard]] int bitsPerPixel() const;
};

/// All of a PNG that says what its pixels are. Colour hints (gAMA, cHRM, sRGB, sBIT), text and
/// times are left behind.
struct PngParts {
    PngHeader header;
    QByteArray palette;      ///< three bytes a colour; empty where the pixels have none
    QByteArray transparency; ///< data of tRNS, as it stands
    QByteArray pixels;       ///< data of all IDAT, still a zlib stream
    QByteArray profile;      ///< the embedded ICC profile, inflated; empty where there is none
};

/// Walks the chunks of a PNG (ISO/IEC 15948 and the W3C's third edition): signature, IHDR first
/// and once, lengths inside the file, checksums, order and size of the chunks that count, image
/// data in one run, IEND. What follows IEND is ignored, as viewers do.
/// Errors: InputError naming `source`: not a PNG, cut off, damaged, animated (acTL), of no stitches
/// or more than the chart's limits, an unknown chunk that must be understood, a colour space given
/// by cICP that is not sRGB, a profile that cannot be inflated.
[[nodiscard]] PngParts readPngParts(const QByteArray& bytes, const QString& source);

} // namespace otherskein::chart
