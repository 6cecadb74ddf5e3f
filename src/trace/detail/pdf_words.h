#pragma once

#include "trace/page.h"

class QPdfDocument;

namespace otherskein::trace::detail {

/// Words of a PDF's page that can be of use: numbers, and words of lines that say something (have
/// a word of two letters or more). Single symbols of a grid are left out. `pdf` is the file that
/// the document was read from.
///
/// Each question to the PDF costs a look at the whole page, so that words are not asked for one by
/// one: the page's whole text comes with a box for each of its runs, in order, and lines and words
/// are laid to those and to the gaps in the page's picture (`scale` px a point). Where that leaves
/// a doubt the PDF is asked again, as long as the signs looked at come to no more than kMostSigns,
/// about half a second; what is still open then is divided by usual widths of letters. No
/// clock decides, so that a page reads the same on a busy machine.
inline constexpr qsizetype kMostSigns = 400'000;
inline constexpr int kMostWords = 20'000;
[[nodiscard]] std::vector<Word> wordsOf(QPdfDocument& document, const QByteArray& pdf, int page,
                                        const QImage& picture, double scale);

} // namespace otherskein::trace::detail
