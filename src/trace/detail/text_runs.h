#pragma once

#include <QRectF>
#include <QString>

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// A word and where it begins in its page's text.
struct TextWord {
    qsizetype start = 0;
    QString text;
    bool isSure = true; ///< its box is known, not guessed
    QRectF box;         ///< points
};

/// About how wide a text is, in heights of its capitals.
[[nodiscard]] double usualWidth(QStringView text);

[[nodiscard]] std::size_t lettersOf(std::span<const TextWord> words);

/// Boxes of a page's runs come without their text, in order. How many of them, one after the
/// other, are on one line: the lengths of those lines.
[[nodiscard]] std::vector<std::size_t> runsByLine(std::span<const QRectF> runs);

/// Lays the words of one line to its runs, which begin where words begin, as their widths go best
/// together. Words that share a run get its parts: sure where the run is about as wide as they.
void layWords(std::span<TextWord> words, std::span<const QRectF> runs);

} // namespace otherskein::trace::detail
