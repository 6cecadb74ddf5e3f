#include "workbox/detail/packing.h"

#include <QtEndian>

#include <algorithm>
#include <utility>

#include <zlib.h>

namespace otherskein::workbox::detail {

namespace {

enum Kind : char { Plain = 0, Zlib = 1 };

constexpr qsizetype kHeader = 1 + sizeof(quint32);
constexpr int kFast = 1; // zlib's level: cells of a chart pack well at any

const Bytef* bytesIn(const QByteArray& bytes, qsizetype at) {
    return reinterpret_cast<const Bytef*>(bytes.constData()) + at;
}

Bytef* bytesIn(QByteArray& bytes, qsizetype at) {
    return reinterpret_cast<Bytef*>(bytes.data()) + at;
}

QByteArray headed(Kind kind, std::size_t count, qsizetype room) {
    QByteArray blob(kHeader + room, Qt::Uninitialized);
    blob[0] = kind;
    qToLittleEndian(static_cast<quint32>(count), blob.data() + 1);
    return blob;
}

} // namespace

QByteArray packed(std::span<const std::uint16_t> numbers) {
    const auto count = static_cast<qsizetype>(numbers.size());
    const auto size = static_cast<qsizetype>(numbers.size_bytes());
    QByteArray plain = headed(Plain, numbers.size(), size);
    if (numbers.empty()) {
        return plain; // copying from nowhere is undefined, even if nothing is copied
    }
    qToLittleEndian<std::uint16_t>(numbers.data(), count, plain.data() + kHeader);

    uLongf length = compressBound(static_cast<uLong>(size));
    QByteArray zipped = headed(Zlib, numbers.size(), static_cast<qsizetype>(length));
    if (compress2(bytesIn(zipped, kHeader), &length, bytesIn(std::as_const(plain), kHeader),
                  static_cast<uLong>(size), kFast) != Z_OK ||
        std::cmp_greater_equal(length, size)) {
        return plain;
    }
    zipped.truncate(kHeader + static_cast<qsizetype>(length));
    return zipped;
}

std::optional<std::vector<std::uint16_t>> unpacked(const QByteArray& blob, std::size_t most) {
    if (blob.size() < kHeader || (blob[0] != Plain && blob[0] != Zlib)) {
        return std::nullopt;
    }
    const auto count = qFromLittleEndian<quint32>(blob.constData() + 1);
    if (count > most) {
        return std::nullopt;
    }
    QByteArray bytes(static_cast<qsizetype>(count * sizeof(std::uint16_t)), Qt::Uninitialized);
    const qsizetype given = blob.size() - kHeader;
    if (blob[0] == Plain) {
        if (given != bytes.size()) {
            return std::nullopt;
        }
        std::copy_n(blob.constData() + kHeader, given, bytes.data());
    } else {
        auto length = static_cast<uLongf>(bytes.size());
        auto used = static_cast<uLong>(given);
        // Writes no more than there is room for, so a bomb does not go off.
        if (uncompress2(bytesIn(bytes, 0), &length, bytesIn(blob, kHeader), &used) != Z_OK ||
            std::cmp_not_equal(length, bytes.size()) || std::cmp_not_equal(used, given)) {
            return std::nullopt;
        }
    }
    std::vector<std::uint16_t> numbers(count);
    if (count > 0) {
        qFromLittleEndian<std::uint16_t>(bytes.constData(), static_cast<qsizetype>(count),
                                         numbers.data());
    }
    return numbers;
}

} // namespace otherskein::workbox::detail
