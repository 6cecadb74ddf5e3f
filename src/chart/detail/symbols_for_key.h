#pragma once

#include <QString>

namespace otherskein::chart {

/// The symbol of row `index` of a key that is made from a picture: A … Z, a … z, then A1 …
[[nodiscard]] inline QString letterSymbol(std::size_t index) {
    constexpr std::size_t kLetters = 26;
    const std::size_t letter = index % (2 * kLetters);
    const std::size_t round = index / (2 * kLetters);
    const char16_t c = letter < kLetters ? static_cast<char16_t>(u'A' + letter)
                                         : static_cast<char16_t>(u'a' + (letter - kLetters));
    return round == 0 ? QString(QChar(c)) : QChar(c) + QString::number(round);
}

} // namespace otherskein::chart
