#include "thread/csv_table.h"

#include <QStringList>

#include <utility>

namespace otherskein::thread {

CsvTable::CsvTable(const QByteArray& bytes, QString source, const base::CsvLimits& limits,
                   Rowless rowless)
    : m_source(std::move(source)), m_rows(base::readCsv(bytes, m_source, limits)) {
    if (m_rows.empty()) {
        throw base::InputError(
            {m_source, 1, {}, QStringLiteral("a header row"), QStringLiteral("an empty file")});
    }
    m_headerRow = m_rows.front().row;
    for (const QString& cell : m_rows.front().cells) {
        const QString column = cell.trimmed();
        if (column.isEmpty()) {
            throw base::InputError(
                {m_source,
                 m_headerRow,
                 {},
                 QStringLiteral("a name for every column"),
                 QStringLiteral("none for column %1").arg(m_columns.size() + 1)});
        }
        if (m_indexOf.contains(column)) {
            throw badCell({m_source, m_headerRow, column}, QStringLiteral("each column once"),
                          QStringLiteral("it twice"));
        }
        m_indexOf.insert(column, m_columns.size());
        m_columns.push_back(column);
    }
    m_rows.erase(m_rows.begin());
    if (m_rows.empty() && rowless == Rowless::Refused) {
        throw base::InputError({m_source,
                                m_headerRow + 1,
                                {},
                                QStringLiteral("a row under the header"),
                                QStringLiteral("the end of the file")});
    }
}

void CsvTable::require(const QString& column, const QString& expected) const {
    if (!has(column)) {
        const QString& only = m_columns.front();
        if (m_columns.size() == 1 && (only.contains(u';') || only.contains(u'\t'))) {
            throw base::InputError(
                {m_source,
                 m_headerRow,
                 {},
                 QStringLiteral("commas between the columns (save the file as "
                                "\"CSV, comma separated\")"),
                 only.contains(u';') ? QStringLiteral("semicolons") : QStringLiteral("tabs")});
        }
        QStringList names;
        for (const QString& one : m_columns) {
            names.push_back(one);
        }
        throw badCell({m_source, m_headerRow, column}, expected,
                      QStringLiteral("the columns ") +
                          base::quotedForMessage(names.join(QLatin1Char(','))));
    }
}

QString CsvTable::cell(const base::CsvRecord& row, const QString& column) const {
    const auto found = m_indexOf.constFind(column);
    return found == m_indexOf.constEnd() ? QString() : row.cells[*found];
}

} // namespace otherskein::thread
