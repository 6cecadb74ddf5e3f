#include "chart/key.h"

#include "base/whole_file.h"
#include "chart/grid.h"
#include "colour/conversion.h"
#include "thread/csv_table.h"
#include "thread/thread.h"

#include <QHash>

namespace otherskein::chart {

namespace {

constexpr int kMostStitches = kMostColumns * kMostRows;

} // namespace

Key parseKey(const QByteArray& bytes, const QString& source) {
    using thread::badCell;
    const QString srgb = QStringLiteral("srgb");
    const QString code = QStringLiteral("code");
    const QString strands = QStringLiteral("strands");
    const QString stitches = QStringLiteral("stitches");
    const thread::CsvTable table(bytes, source);
    table.require(srgb, QStringLiteral("a column named srgb"));
    table.require(code, QStringLiteral("a column named code"));
    if (table.rows().size() > kMostKeyRows) {
        throw base::InputError({source,
                                table.rows()[kMostKeyRows].row,
                                {},
                                QStringLiteral("at most %1 rows, one a thread").arg(kMostKeyRows),
                                QStringLiteral("%1").arg(table.rows().size())});
    }

    Key key;
    QHash<QString, int> rowOfPixel;
    for (const base::CsvRecord& record : table.rows()) {
        const QString hex = table.cell(record, srgb).trimmed();
        const auto pixel = colour::parseHex(hex);
        if (!pixel) {
            throw badCell(table.place(record, srgb), QStringLiteral("#rrggbb"),
                          base::quotedForMessage(hex));
        }
        if (const auto earlier = rowOfPixel.constFind(colour::toHex(*pixel));
            earlier != rowOfPixel.constEnd()) {
            throw badCell(table.place(record, srgb), QStringLiteral("each colour once"),
                          QStringLiteral("%1 again (first in row %2)").arg(hex).arg(*earlier));
        }
        rowOfPixel.insert(colour::toHex(*pixel), record.row);

        KeyRow row;
        row.pixel = *pixel;
        row.lab = colour::labFromSrgb(*pixel);
        row.symbol = table.cell(record, QStringLiteral("symbol"));
        row.card = table.cell(record, QStringLiteral("card")).trimmed();
        row.code = table.cell(record, code).trimmed();
        row.name = table.cell(record, QStringLiteral("name"));
        if (const QString cell = table.cell(record, strands).trimmed(); !cell.isEmpty()) {
            row.strands = thread::wholeNumberIn(table.place(record, strands), cell, 1,
                                                thread::limits::kMostStrands);
        }
        if (const QString cell = table.cell(record, stitches).trimmed(); !cell.isEmpty()) {
            row.stitches =
                thread::wholeNumberIn(table.place(record, stitches), cell, 0, kMostStitches);
        }
        key.push_back(std::move(row));
    }
    return key;
}

Key readKey(const QString& path) {
    return parseKey(base::readWholeFile(path, kMostKeyBytes), path);
}

QByteArray keyCsv(const Key& key) {
    QByteArray csv =
        base::csvLine({QStringLiteral("srgb"), QStringLiteral("symbol"), QStringLiteral("card"),
                       QStringLiteral("code"), QStringLiteral("name"), QStringLiteral("strands"),
                       QStringLiteral("stitches")});
    for (const KeyRow& row : key) {
        csv += base::csvLine({colour::toHex(row.pixel), row.symbol, row.card, row.code, row.name,
                              QString::number(row.strands), QString::number(row.stitches)});
    }
    return csv;
}

} // namespace otherskein::chart
