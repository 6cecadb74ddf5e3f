#pragma once

#include <QByteArray>
#include <QtEndian>

namespace otherskein::chart::samples {

inline QByteArray bigEndian32(quint32 value) {
    QByteArray bytes(4, '\0');
    qToBigEndian(value, bytes.data());
    return bytes;
}

/// ISO/IEC 15948 annex D, bit by bit.
inline quint32 pngChecksum(const QByteArray& bytes) {
    quint32 sum = 0xffffffffU;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit) {
            sum = (sum & 1U) != 0 ? 0xedb88320U ^ (sum >> 1U) : sum >> 1U;
        }
    }
    return ~sum;
}

/// `png` with one chunk more, right behind its header.
inline QByteArray withChunk(const QByteArray& png, const QByteArray& type, const QByteArray& data) {
    constexpr qsizetype kEndOfHeader = 8 + 12 + 13;
    const QByteArray chunk = bigEndian32(static_cast<quint32>(data.size())) + type + data +
                             bigEndian32(pngChecksum(type + data));
    return png.left(kEndOfHeader) + chunk + png.mid(kEndOfHeader);
}

/// `png` with an embedded ICC profile.
inline QByteArray withProfile(const QByteArray& png, const QByteArray& profile) {
    constexpr qsizetype kLengthBytes = 4; // qCompress puts them before the zlib stream
    return withChunk(png, "iCCP",
                     QByteArray("a profile\0\0", 11) + qCompress(profile).mid(kLengthBytes));
}

} // namespace otherskein::chart::samples
