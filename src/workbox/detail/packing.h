#pragma once

#include <QByteArray>

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace otherskein::workbox::detail {

/// Whole numbers of 16 bits as they stand in a blob: one byte that says how (0 plain, 1 a zlib
/// stream, whichever is shorter), how many there are (32 bits), then the numbers. All
/// little-endian.
[[nodiscard]] QByteArray packed(std::span<const std::uint16_t> numbers);

/// Nothing for what `packed` did not make, or for more than `most` numbers, found before memory is
/// spent on them.
[[nodiscard]] std::optional<std::vector<std::uint16_t>> unpacked(const QByteArray& blob,
                                                                 std::size_t most);

} // namespace otherskein::workbox::detail
