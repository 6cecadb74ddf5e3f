#pragma once

#include <QByteArray>
#include <QString>

#include <vector>

namespace otherskein::base {

/// One record of a CSV file.
struct CsvRecord {
    int row = 0; ///< from 1, counted in records as a spreadsheet does, empty lines included
    std::vector<QString> cells;
};

struct CsvLimits {
    int mostRows = 100'001;
    int mostColumns = 256;
    int longestCell = 10'000;
};

/// Reads RFC 4180 records.
///
/// Grammar: UTF-8, a byte order mark allowed at the start; records end with LF, CRLF or CR, the
/// last one may have no end; cells are parted by commas; a cell is either free of quotes, or stands
/// wholly in quotes, where a quote is doubled and commas and line ends are text. Empty lines are
/// skipped. Cells neutralised for spreadsheets are restored.
///
/// Errors: InputError naming `source` and the row: not UTF-8, a NUL byte, a quote out of place or
/// never closed, a row with another number of cells than the first, a limit passed.
[[nodiscard]] std::vector<CsvRecord> readCsv(const QByteArray& bytes, const QString& source,
                                             const CsvLimits& limits = {});

/// One record with its line end (CRLF, as RFC 4180 says), cells neutralised and quoted as needed.
[[nodiscard]] QByteArray csvLine(const std::vector<QString>& cells);

/// `cell` made harmless to a spreadsheet, which would run a cell that begins with = + - @, tab or
/// CR as a formula: an apostrophe is put before it. Plain numbers stay. A cell that already looks
/// neutralised gets one more apostrophe, so that `restored` always undoes this.
[[nodiscard]] QString neutralised(const QString& cell);
[[nodiscard]] QString restored(const QString& cell);

} // namespace otherskein::base
