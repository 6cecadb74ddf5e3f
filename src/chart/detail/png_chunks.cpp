#include "chart/detail/png_chunks.h"

#include "base/input_error.h"
#include "chart/detail/inflate.h"
#include "chart/grid.h"

#include <QSet>
#include <QtEndian>

#include <algorithm>

namespace otherskein::chart {

namespace {

constexpr qsizetype kFrameBytes = 12; // length, type and checksum around a chunk's data
constexpr qsizetype kColourBytes = 3; // of a palette's entry
constexpr qsizetype kMostProfileBytes = 8 * 1024 * 1024; // printers' profiles have a few (ours)

/// Table 11.1 of the standard: which depths go with which kind of pixel.
bool isDepthOf(int depth, int colour) {
    switch (colour) {
    case int(PngColour::Grey):
        return depth == 1 || depth == 2 || depth == 4 || depth == 8 || depth == 16;
    case int(PngColour::Palette):
        return depth == 1 || depth == 2 || depth == 4 || depth == 8;
    case int(PngColour::Rgb):
    case int(PngColour::GreyAlpha):
    case int(PngColour::RgbAlpha):
        return depth == 8 || depth == 16;
    default:
        return false;
    }
}

class Walk {
  public:
    Walk(const QByteArray& bytes, const QString& source) : m_bytes(bytes), m_source(source) {}

    PngParts parts() {
        if (!m_bytes.startsWith(kPngSignature)) {
            refuse(QStringLiteral("a chart picture (PNG)"),
                   m_bytes.isEmpty() ? QStringLiteral("an empty file")
                                     : QStringLiteral("another kind of file"));
        }
        qsizetype at = kPngSignature.size();
        QByteArrayView type;
        while (type != "IEND") {
            const QByteArrayView chunk = chunkAt(at);
            type = chunk.sliced(4, 4);
            if ((at == kPngSignature.size()) != (type == "IHDR")) {
                damaged("header");
            }
            take(type, chunk.sliced(8, chunk.size() - kFrameBytes));
            at += chunk.size();
        }
        if (m_parts.pixels.isEmpty()) {
            damaged("no image data");
        }
        if (m_isCodedSrgb) {
            m_parts.profile.clear(); // the third edition: cICP overrides iCCP
        }
        return m_parts;
    }

  private:
    const QByteArray& m_bytes;
    const QString& m_source;
    PngParts m_parts;
    QSet<QByteArray> m_seen; // of those that may stand once
    bool m_isCodedSrgb = false;
    bool m_sawPixels = false;
    bool m_pixelsEnded = false;

    [[noreturn]] void refuse(const QString& expected, const QString& found) const {
        throw base::InputError({m_source, std::nullopt, {}, expected, found});
    }
    [[noreturn]] void damaged(const char* what) const {
        refuse(QStringLiteral("a whole PNG"),
               QStringLiteral("a damaged one (%1)").arg(QLatin1String(what)));
    }

    [[nodiscard]] QByteArrayView chunkAt(qsizetype at) const {
        const qsizetype left = m_bytes.size() - at;
        const qsizetype length =
            left < kFrameBytes ? left : qFromBigEndian<quint32>(m_bytes.constData() + at);
        if (length > left - kFrameBytes) {
            refuse(QStringLiteral("a whole PNG"), QStringLiteral("one that is cut off"));
        }
        const QByteArrayView chunk = QByteArrayView(m_bytes).sliced(at, length + kFrameBytes);
        if (qFromBigEndian<quint32>(chunk.last(4).data()) != crc32Of(chunk.sliced(4, length + 4))) {
            damaged("checksum");
        }
        return chunk;
    }

    void take(QByteArrayView type, QByteArrayView data) {
        m_pixelsEnded = m_pixelsEnded || (m_sawPixels && type != "IDAT");
        if (type == "IDAT") {
            takePixels(data);
        } else if (type == "acTL") {
            refuse(QStringLiteral("a still picture"), QStringLiteral("an animated PNG"));
        } else if (type == "IHDR" || type == "PLTE" || type == "tRNS" || type == "iCCP" ||
                   type == "cICP") {
            takeOnce(type, data);
        } else if (type != "IEND" && !isAncillary(type)) {
            damaged("a chunk that no PNG has");
        }
    }

    /// Chunks that a reader may skip begin with a small letter. All four are letters.
    [[nodiscard]] static bool isAncillary(QByteArrayView type) {
        const auto isSmall = [](char c) { return c >= 'a' && c <= 'z'; };
        const auto isLetter = [&](char c) { return isSmall(c) || (c >= 'A' && c <= 'Z'); };
        return std::ranges::all_of(type, isLetter) && isSmall(type.front());
    }

    void takeOnce(QByteArrayView type, QByteArrayView data) {
        if (m_sawPixels || m_seen.contains(type.toByteArray())) {
            damaged("a chunk out of its place");
        }
        m_seen.insert(type.toByteArray());
        if (type == "IHDR") {
            takeHeader(data);
        } else if (type == "PLTE") {
            takePalette(data);
        } else if (type == "tRNS") {
            takeTransparency(data);
        } else if (type == "iCCP") {
            takeProfile(data);
        } else {
            takeCoding(data);
        }
    }

    void takeHeader(QByteArrayView data) {
        if (data.size() != kPngHeaderBytes) {
            damaged("header");
        }
        const auto width = qFromBigEndian<quint32>(data.data());
        const auto height = qFromBigEndian<quint32>(data.data() + 4);
        if (width == 0 || height == 0 || width > quint32{kMostColumns} ||
            height > quint32{kMostRows}) {
            refuse(QStringLiteral("1 to %1 columns and 1 to %2 rows, one pixel a stitch")
                       .arg(kMostColumns)
                       .arg(kMostRows),
                   QStringLiteral("%1 x %2 pixels").arg(width).arg(height));
        }
        const int depth = data[8];
        const int colour = data[9];
        const bool isKnown = data[10] == 0 && data[11] == 0 && (data[12] == 0 || data[12] == 1);
        if (!isKnown || !isDepthOf(depth, colour)) {
            damaged("header");
        }
        m_parts.header = {static_cast<int>(width), static_cast<int>(height), depth,
                          static_cast<PngColour>(colour), data[12] == 1};
    }

    void takePalette(QByteArrayView data) {
        const PngHeader& header = m_parts.header;
        constexpr qsizetype kMostColours = 256;
        if (header.colour != PngColour::Palette) {
            return; // a hint for old screens
        }
        const qsizetype colours = data.size() / kColourBytes;
        if (data.size() % kColourBytes != 0 || colours < 1 || colours > kMostColours ||
            colours > (qsizetype{1} << header.depth)) {
            damaged("palette");
        }
        m_parts.palette = data.toByteArray();
    }

    void takeTransparency(QByteArrayView data) {
        constexpr qsizetype kSampleBytes = 2;
        const PngHeader& header = m_parts.header;
        const qsizetype samples = header.colour == PngColour::Grey  ? 1
                                  : header.colour == PngColour::Rgb ? 3
                                                                    : 0;
        bool fits = samples > 0 && data.size() == samples * kSampleBytes;
        for (qsizetype i = 0; fits && i < samples; ++i) {
            const int sample = qFromBigEndian<quint16>(data.data() + i * kSampleBytes);
            fits = sample < (1 << header.depth);
        }
        if (header.colour == PngColour::Palette) { // before its palette there is no room for any
            fits = !data.isEmpty() && data.size() <= m_parts.palette.size() / kColourBytes;
        }
        if (!fits) {
            damaged("transparency");
        }
        m_parts.transparency = data.toByteArray();
    }

    /// A name, a zero, the method 0, then the profile as a zlib stream.
    void takeProfile(QByteArrayView data) {
        constexpr qsizetype kLongestName = 79;
        const qsizetype zero = data.indexOf('\0');
        if (zero >= 1 && zero <= kLongestName && zero + 2 < data.size() && data[zero + 1] == '\0') {
            m_parts.profile =
                inflated(data.sliced(zero + 2), kMostProfileBytes).value_or(QByteArray());
        }
        if (m_parts.profile.isEmpty()) {
            refuse(QStringLiteral("a readable colour profile, or none"),
                   QStringLiteral("a damaged one"));
        }
    }

    /// Colour space by number (ITU-T H.273): primaries 1, curve 13, matrix 0, full range are sRGB.
    void takeCoding(QByteArrayView data) {
        m_isCodedSrgb = data == QByteArrayView("\x01\x0d\x00\x01", 4);
        if (!m_isCodedSrgb) {
            refuse(QStringLiteral("a picture in sRGB or with an ICC profile"),
                   QStringLiteral("one in another colour space (cICP)"));
        }
    }

    void takePixels(QByteArrayView data) {
        if (m_pixelsEnded) {
            damaged("image data in pieces");
        }
        if (m_parts.header.colour == PngColour::Palette && m_parts.palette.isEmpty()) {
            damaged("no palette");
        }
        m_sawPixels = true;
        m_parts.pixels.append(data);
    }
};

} // namespace

int PngHeader::bitsPerPixel() const {
    switch (colour) {
    case PngColour::GreyAlpha:
        return 2 * depth;
    case PngColour::Rgb:
        return 3 * depth;
    case PngColour::RgbAlpha:
        return 4 * depth;
    default:
        return depth;
    }
}

PngParts readPngParts(const QByteArray& bytes, const QString& source) {
    return Walk(bytes, source).parts();
}

} // namespace otherskein::chart
