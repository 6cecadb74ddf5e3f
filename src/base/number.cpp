#include "base/number.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace otherskein::base {

std::optional<double> parseNumber(const QString& text) {
    const QString trimmed = text.trimmed();
    // QString::toDouble would also take "nan", "inf" and other scripts' digits.
    const bool plain = std::ranges::all_of(trimmed, [](QChar c) {
        return (c >= u'0' && c <= u'9') || c == u'.' || c == u'-' || c == u'+' || c == u'e' ||
               c == u'E';
    });
    if (!plain) {
        return std::nullopt;
    }
    bool ok = false;
    const double value = trimmed.toDouble(&ok);
    if (!ok || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

std::optional<int> parseWholeNumber(const QString& text) {
    const auto value = parseNumber(text);
    if (!value || *value != std::floor(*value) || std::abs(*value) > 2e9) {
        return std::nullopt;
    }
    return static_cast<int>(*value);
}

QString formatNumber(double value) {
    return QString::number(value, 'g', QLocale::FloatingPointShortest);
}

} // namespace otherskein::base
