#include "chart/lines_csv.h"

#include "base/csv.h"
#include "base/number.h"
#include "thread/csv_table.h"

#include <QHash>

#include <cmath>

namespace otherskein::chart {

namespace {

using thread::badCell;

/// Rows of the key by symbol; one that two rows share names neither.
struct RowOfSymbol {
    KeyIndex key = 0;
    bool shared = false;
};

QHash<QString, RowOfSymbol> rowsBySymbol(const Key& key) {
    QHash<QString, RowOfSymbol> rows;
    for (std::size_t i = 0; i < key.size(); ++i) {
        const QString symbol = key[i].symbol.trimmed();
        const auto known = rows.find(symbol);
        if (known != rows.end()) {
            known->shared = true;
        } else {
            rows.insert(symbol, {static_cast<KeyIndex>(i), false});
        }
    }
    return rows;
}

int halfCells(const thread::CsvTable& table, const base::CsvRecord& record, const QString& column,
              int most) {
    const thread::CellPlace place = table.place(record, column);
    const QString cell = table.cell(record, column).trimmed();
    const double value = thread::numberIn(place, cell, 0, most);
    const double halves = 2 * value;
    if (halves != std::floor(halves)) {
        throw badCell(place, QStringLiteral("whole or half cells (2 or 2.5)"),
                      base::quotedForMessage(cell));
    }
    return static_cast<int>(halves);
}

QString cellsText(int halves) {
    return base::formatNumber(halves / 2.0);
}

} // namespace

std::vector<Line> parseLines(const QByteArray& bytes, const QString& source, const Grid& grid,
                             const Key& key) {
    const QString columns[] = {QStringLiteral("x1"), QStringLiteral("y1"), QStringLiteral("x2"),
                               QStringLiteral("y2"), QStringLiteral("symbol")};
    base::CsvLimits limits;
    limits.mostRows = static_cast<int>(kMostLines) + 2; // the header, and one to be too many
    const thread::CsvTable table(bytes, source, limits, thread::CsvTable::Rowless::Allowed);
    for (const QString& column : columns) {
        table.require(column, QStringLiteral("a column named %1").arg(column));
    }
    if (table.rows().size() > kMostLines) {
        throw base::InputError({source,
                                table.rows()[kMostLines].row,
                                {},
                                QStringLiteral("at most %1 lines").arg(kMostLines),
                                QStringLiteral("more")});
    }
    const QHash<QString, RowOfSymbol> rows = rowsBySymbol(key);
    std::vector<Line> lines;
    for (const base::CsvRecord& record : table.rows()) {
        Line line;
        line.x1 = halfCells(table, record, columns[0], grid.columns());
        line.y1 = halfCells(table, record, columns[1], grid.rows());
        line.x2 = halfCells(table, record, columns[2], grid.columns());
        line.y2 = halfCells(table, record, columns[3], grid.rows());
        if (line.x1 == line.x2 && line.y1 == line.y2) {
            throw badCell(table.place(record, columns[2]), QStringLiteral("two different ends"),
                          QStringLiteral("a line of no length"));
        }
        const thread::CellPlace place = table.place(record, columns[4]);
        const QString symbol = table.cell(record, columns[4]).trimmed();
        const auto row = rows.constFind(symbol);
        if (symbol.isEmpty() || row == rows.constEnd()) {
            throw badCell(place, QStringLiteral("a symbol of the key"),
                          base::quotedForMessage(symbol));
        }
        if (row->shared) {
            throw badCell(place, QStringLiteral("a symbol that one row of the key has"),
                          QStringLiteral("%1, which two have").arg(base::quotedForMessage(symbol)));
        }
        line.key = row->key;
        lines.push_back(line);
    }
    return lines;
}

QByteArray linesCsv(const std::vector<Line>& lines, const Key& key) {
    QByteArray csv =
        base::csvLine({QStringLiteral("x1"), QStringLiteral("y1"), QStringLiteral("x2"),
                       QStringLiteral("y2"), QStringLiteral("symbol")});
    for (const Line& line : lines) {
        csv += base::csvLine({cellsText(line.x1), cellsText(line.y1), cellsText(line.x2),
                              cellsText(line.y2), key[line.key].symbol});
    }
    return csv;
}

} // namespace otherskein::chart
