#pragma once

#include <QString>

#include <optional>

namespace otherskein::base {

/// A finite number written with digits and a full stop, whatever the machine's language.
/// Blanks around it are allowed; "nan", "inf", hexadecimal and a decimal comma are not.
[[nodiscard]] std::optional<double> parseNumber(const QString& text);

/// A whole number that fits an int; same rules.
[[nodiscard]] std::optional<int> parseWholeNumber(const QString& text);

/// The shortest text that `parseNumber` reads back to the same double.
[[nodiscard]] QString formatNumber(double value);

} // namespace otherskein::base
