#pragma once

// Reads the published values in this folder. On purpose not the program's own CSV reader, which is
// itself under test: these files hold no quotes.

#include <QByteArray>
#include <QFile>
#include <QString>
#include <QStringList>

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace otherskein::reference {

/// One row of a file, its cells asked for by the name of the column.
class Row {
  public:
    Row(const QStringList& columns, QStringList cells)
        : m_columns(&columns), m_cells(std::move(cells)) {}

    [[nodiscard]] QString text(const char* column) const {
        const qsizetype at = m_columns->indexOf(QString::fromLatin1(column));
        if (at < 0 || at >= m_cells.size()) {
            throw std::runtime_error(std::string("no cell in reference column ") + column);
        }
        return m_cells[at];
    }

    [[nodiscard]] double number(const char* column) const {
        bool ok = false;
        const double value = text(column).toDouble(&ok);
        if (!ok) {
            throw std::runtime_error(std::string("not a number in reference column ") + column);
        }
        return value;
    }

  private:
    const QStringList* m_columns;
    QStringList m_cells;
};

/// A file of tests/reference: comment lines ("# ..."), then a header, then rows of commas.
class File {
  public:
    explicit File(const char* name) {
        QFile file(QStringLiteral(OTHERSKEIN_SOURCE_DIR "/tests/reference/") +
                   QString::fromLatin1(name));
        if (!file.open(QIODevice::ReadOnly)) {
            throw std::runtime_error(std::string("cannot read reference file ") + name);
        }
        while (!file.atEnd()) {
            const QString line = QString::fromUtf8(file.readLine()).trimmed();
            // A comment has a blank after its sign; a cell may begin with the sign of a hex colour.
            if (line.isEmpty() || line == QStringLiteral("#") ||
                line.startsWith(QStringLiteral("# "))) {
                continue;
            }
            QStringList cells = line.split(QLatin1Char(','));
            if (m_columns.isEmpty()) {
                m_columns = std::move(cells);
            } else {
                m_rows.emplace_back(m_columns, std::move(cells));
            }
        }
    }
    // Rows point at the columns of their file.
    File(const File&) = delete;
    File& operator=(const File&) = delete;

    [[nodiscard]] const std::vector<Row>& rows() const { return m_rows; }

  private:
    QStringList m_columns;
    std::vector<Row> m_rows;
};

} // namespace otherskein::reference
