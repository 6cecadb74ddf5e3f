#include "chart/detail/png_image.h"

#include "base/input_error.h"
#include "chart/detail/inflate.h"

#include <QBuffer>
#include <QImageReader>
#include <QtEndian>

#include <algorithm>
#include <array>
#include <vector>

namespace otherskein::chart {

namespace {

[[noreturn]] void damaged(const QString& source, const QString& what) {
    throw base::InputError({source,
                            std::nullopt,
                            {},
                            QStringLiteral("a whole PNG"),
                            QStringLiteral("a damaged one (%1)").arg(what)});
}

/// Lines of pixels that follow each other in the image data.
struct Pass {
    int lines = 0;
    qsizetype bytesPerLine = 0; ///< with the byte in front that names the filter
};

std::vector<Pass> passesOf(const PngHeader& header) {
    struct Lattice {
        int left, top, across, down;
    };
    // Adam7, clause 8.2 of the standard.
    constexpr Lattice kInterlaced[] = {{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4},
                                       {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}};
    constexpr Lattice kPlain[] = {{0, 0, 1, 1}};
    const auto steps = [](int size, int start, int step) {
        return (size - start + step - 1) / step;
    };
    std::vector<Pass> passes;
    const auto add = [&](const Lattice& lattice) {
        const int columns = steps(header.width, lattice.left, lattice.across);
        const int lines = steps(header.height, lattice.top, lattice.down);
        if (columns > 0 && lines > 0) {
            constexpr int kBitsPerByte = 8;
            const int bits = columns * header.bitsPerPixel();
            passes.push_back({lines, 1 + (bits + kBitsPerByte - 1) / kBitsPerByte});
        }
    };
    if (header.interlaced) {
        std::ranges::for_each(kInterlaced, add);
    } else {
        std::ranges::for_each(kPlain, add);
    }
    return passes;
}

/// The decoder forgives what it can; here all lines must be there, each with a known filter.
void checkImageData(const PngParts& parts, const QString& source) {
    constexpr unsigned char kLastFilter = 4;
    const std::vector<Pass> passes = passesOf(parts.header);
    qsizetype expected = 0;
    for (const Pass& pass : passes) {
        expected += pass.lines * pass.bytesPerLine;
    }
    const auto data = inflated(parts.pixels, expected);
    if (!data || data->size() != expected) {
        damaged(source, QStringLiteral("image data"));
    }
    qsizetype at = 0;
    for (const Pass& pass : passes) {
        for (int line = 0; line < pass.lines; ++line, at += pass.bytesPerLine) {
            if (static_cast<unsigned char>((*data)[at]) > kLastFilter) {
                damaged(source, QStringLiteral("image data"));
            }
        }
    }
}

/// From a sample to 16 bits; whole for every depth.
int widening(const PngHeader& header) {
    return 0xffff / ((1 << header.depth) - 1);
}

quint16 from8(char byte) {
    return static_cast<quint16>(257 * static_cast<unsigned char>(byte));
}

/// Puts the palette's colours where `image` holds their numbers as greys.
void applyPalette(QImage& image, const PngParts& parts, const QString& source) {
    std::vector<QRgba64> colours;
    for (qsizetype i = 0; 3 * i < parts.palette.size(); ++i) {
        const char* rgb = parts.palette.constData() + 3 * i;
        const quint16 alpha =
            i < parts.transparency.size() ? from8(parts.transparency[i]) : quint16{0xffff};
        colours.push_back(qRgba64(from8(rgb[0]), from8(rgb[1]), from8(rgb[2]), alpha));
    }
    const int step = widening(parts.header);
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgba64*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            const auto index = static_cast<std::size_t>(line[x].red() / step);
            if (index >= colours.size()) {
                damaged(source, QStringLiteral("column %1, row %2 is a colour beyond its palette")
                                    .arg(x + 1)
                                    .arg(y + 1));
            }
            line[x] = colours[index];
        }
    }
}

/// Clears the one grey or RGB colour that the tRNS chunk names.
void applyClearColour(QImage& image, const PngParts& parts) {
    const auto sample = [&](qsizetype index) {
        const auto* data = parts.transparency.constData() + 2 * index;
        return static_cast<quint16>(qFromBigEndian<quint16>(data) * widening(parts.header));
    };
    const bool isGrey = parts.header.colour == PngColour::Grey;
    const QRgba64 clear =
        qRgba64(sample(0), sample(isGrey ? 0 : 1), sample(isGrey ? 0 : 2), 0xffff);
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgba64*>(image.scanLine(y));
        std::replace(line, line + image.width(), clear, qRgba64(0));
    }
}

void appendChunk(QByteArray& png, const char* type, const QByteArray& data) {
    const auto bigEndian = [](quint32 value) {
        std::array<char, 4> bytes{};
        qToBigEndian(value, bytes.data());
        return QByteArray(bytes.data(), bytes.size());
    };
    const qsizetype start = png.size();
    png += bigEndian(static_cast<quint32>(data.size()));
    png += type;
    png += data;
    png += bigEndian(crc32Of(QByteArrayView(png).sliced(start + 4)));
}

/// The samples alone as a PNG: no profile or hints that a decoder might convert by, no palette
/// (numbers of colours become greys) and no clear colour. Qt 6.4 takes a number beyond the palette
/// for another colour, and misreads the clear colour of 16-bit RGB; so both are applied here.
QByteArray plainPng(const PngParts& parts) {
    const PngHeader& header = parts.header;
    QByteArray start(kPngHeaderBytes, '\0');
    qToBigEndian(static_cast<quint32>(header.width), start.data());
    qToBigEndian(static_cast<quint32>(header.height), start.data() + 4);
    start[8] = static_cast<char>(header.depth);
    start[9] =
        static_cast<char>(header.colour == PngColour::Palette ? PngColour::Grey : header.colour);
    start[12] = header.interlaced ? 1 : 0;

    QByteArray png = kPngSignature.toByteArray();
    png.reserve(parts.pixels.size() + 64); // the rest is less
    appendChunk(png, "IHDR", start);
    appendChunk(png, "IDAT", parts.pixels);
    appendChunk(png, "IEND", {});
    return png;
}

} // namespace

QImage decodedPng(const PngParts& parts, const QString& source) {
    checkImageData(parts, source);
    QByteArray png = plainPng(parts);
    QBuffer buffer(&png);
    buffer.open(QIODevice::ReadOnly);
    QImageReader reader(&buffer, "png");
    QImage image;
    if (!reader.read(&image) || image.width() != parts.header.width ||
        image.height() != parts.header.height) {
        damaged(source, reader.errorString());
    }
    image.convertTo(QImage::Format_RGBA64);
    if (parts.header.colour == PngColour::Palette) {
        applyPalette(image, parts, source);
    } else if (!parts.transparency.isEmpty()) {
        applyClearColour(image, parts);
    }
    return image;
}

} // namespace otherskein::chart
