#pragma once

#include "trace/page.h"

class QPdfDocument;

namespace otherskein::trace::detail {

/// Words of a PDF's page that can be of use: numbers, and lines with words of two letters or more.
/// Rows of single symbols are passed over, since each question to the PDF costs a look at the whole
/// page. At most kMostWords, and no more than about kMostMs of time.
inline constexpr int kMostWords = 400;
inline constexpr int kMostMs = 1500;
[[nodiscard]] std::vector<Word> wordsOf(QPdfDocument& document, int page, double scale);

} // namespace otherskein::trace::detail
