#pragma once

#include "chart/chart.h"

#include <QByteArray>

namespace otherskein::chart {

inline constexpr qint64 kMostLineBytes = 16LL * 1024 * 1024;

/// Reads backstitch: CSV with the header `x1,y1,x2,y2,symbol`, in cells from the top left corner,
/// halves allowed; `symbol` names a row of `key` (an empty one is refused, and one that two rows
/// share; blanks around it do not count). Both ends lie on the grid and differ. At most kMostLines;
/// a header alone is no lines. Errors: InputError with row and column.
[[nodiscard]] std::vector<Line> parseLines(const QByteArray& bytes, const QString& source,
                                           const Grid& grid, const Key& key);

/// `parseLines` with the same key reads back equal lines, if the symbols that they name tell the
/// rows of the key apart.
[[nodiscard]] QByteArray linesCsv(const std::vector<Line>& lines, const Key& key);

} // namespace otherskein::chart
