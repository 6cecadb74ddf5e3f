// Any bytes are a chart or one InputError; a chart comes back equal from its own picture and key.
//
// A chunk's checksum would stop nearly every change that a fuzzer makes at once, so each is put
// right first: what is tested lies behind it.
#include "base/input_error.h"
#include "chart/picture.h"

#include <QString>
#include <QtEndian>

#include <cstddef>
#include <cstdint>
#include <cstdlib>

using namespace otherskein;

namespace {

void expect(bool held) {
    if (!held) {
        std::abort();
    }
}

/// ISO/IEC 15948, annex D.
quint32 checksum(const char* bytes, qsizetype size) {
    quint32 sum = 0xffffffffU;
    for (qsizetype i = 0; i < size; ++i) {
        sum ^= static_cast<unsigned char>(bytes[i]);
        for (int bit = 0; bit < 8; ++bit) {
            sum = (sum & 1U) != 0 ? 0xedb88320U ^ (sum >> 1U) : sum >> 1U;
        }
    }
    return ~sum;
}

void mendChecksums(QByteArray& png) {
    constexpr qsizetype kFrame = 12;
    qsizetype at = 8;
    while (png.size() - at >= kFrame) {
        const auto length = static_cast<qsizetype>(qFromBigEndian<quint32>(png.constData() + at));
        if (length > png.size() - at - kFrame) {
            return;
        }
        qToBigEndian(checksum(png.constData() + at + 4, length + 4), png.data() + at + 8 + length);
        at += length + kFrame;
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    mendChecksums(bytes);
    const QString source = QStringLiteral("c.png");
    chart::Chart chart;
    try {
        chart = chart::chartFromPicture(bytes, source);
    } catch (const base::InputError& error) {
        expect(!error.line().isEmpty() && !error.line().contains(u'\n'));
        return 0;
    }
    // From here on nothing may be refused.
    expect(chart.isConsistent());
    expect(chart.key.size() <= chart::kMostKeyRows);
    const QByteArray written = chart::pictureBytes(chart);
    expect(chart::chartFromPicture(written, source, chart.key, source) == chart);
    expect(chart::chartFromPicture(written, source) == chart);
    return 0;
}
