#include "colour/srgb.h"

#include <algorithm>

namespace otherskein::colour {

std::optional<Srgb8> parseHex(const QString& text) {
    const auto isHexDigit = [](QChar c) {
        return (c >= u'0' && c <= u'9') || (c >= u'a' && c <= u'f') || (c >= u'A' && c <= u'F');
    };
    if (text.size() != 7 || text[0] != u'#' ||
        !std::all_of(text.begin() + 1, text.end(), isHexDigit)) {
        return std::nullopt;
    }
    const unsigned value = QStringView(text).mid(1).toUInt(nullptr, 16);
    return Srgb8{static_cast<std::uint8_t>(value >> 16U),
                 static_cast<std::uint8_t>((value >> 8U) & 0xffU),
                 static_cast<std::uint8_t>(value & 0xffU)};
}

QString toHex(const Srgb8& srgb) {
    const unsigned value = (unsigned{srgb.r} << 16U) | (unsigned{srgb.g} << 8U) | unsigned{srgb.b};
    return QStringLiteral("#%1").arg(value, 6, 16, QLatin1Char('0'));
}

} // namespace otherskein::colour
