#pragma once

#include <QByteArray>

#include <optional>

namespace otherskein::chart {

/// The bytes of a zlib stream (RFC 1950) at the start of `stream`; what follows it is ignored.
/// None when it is damaged, cut off, has a wrong checksum, or holds more than `most` bytes: a few
/// bytes can unpack to a thousand times as many, so memory is spent for `most` at the outside.
[[nodiscard]] std::optional<QByteArray> inflated(QByteArrayView stream, qsizetype most);

/// CRC-32 as in ISO/IEC 15948, annex D.
[[nodiscard]] quint32 crc32Of(QByteArrayView bytes);

} // namespace otherskein::chart
