#pragma once

#include "base/csv.h"
#include "thread/field_checks.h"

#include <QHash>

#include <optional>
#include <vector>

namespace otherskein::thread {

/// A CSV file whose first record names the columns.
class CsvTable {
  public:
    enum class Rowless { Refused, Allowed };
    /// Errors: InputError: no header, a header without rows unless `rowless` allows it, a doubled
    /// or unnamed column.
    CsvTable(const QByteArray& bytes, QString source, const base::CsvLimits& limits = {},
             Rowless rowless = Rowless::Refused);

    [[nodiscard]] const std::vector<QString>& columns() const { return m_columns; }
    [[nodiscard]] bool has(const QString& column) const { return m_indexOf.contains(column); }
    /// Errors: InputError naming the header row when `column` is not there.
    void require(const QString& column, const QString& expected) const;

    [[nodiscard]] const std::vector<base::CsvRecord>& rows() const { return m_rows; }
    /// The cell as it stands; empty where there is no such column.
    [[nodiscard]] QString cell(const base::CsvRecord& row, const QString& column) const;
    [[nodiscard]] CellPlace place(const base::CsvRecord& row, const QString& column) const {
        return {m_source, row.row, column};
    }

  private:
    QString m_source;
    int m_headerRow = 1;
    std::vector<QString> m_columns;
    QHash<QString, std::size_t> m_indexOf;
    std::vector<base::CsvRecord> m_rows;
};

} // namespace otherskein::thread
