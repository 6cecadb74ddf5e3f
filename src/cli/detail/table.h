#pragma once

#include <QString>

#include <vector>

namespace otherskein::cli {

/// A table for a terminal with letters of one width. Columns keep in line when names hold wide
/// letters or emoji, as far as terminals agree on their width.
class Table {
  public:
    enum class Align { Left, Right };
    struct Column {
        QString title;
        Align align = Align::Left;
    };

    explicit Table(std::vector<Column> columns);

    void addRow(const std::vector<QString>& cells);
    /// A line of its own below the last row.
    void addRemark(const QString& remark);
    [[nodiscard]] QString text() const;

  private:
    struct Row {
        std::vector<QString> cells;
        std::vector<QString> remarks;
    };
    std::vector<Column> m_columns;
    std::vector<Row> m_rows;
};

/// How many columns of a terminal `text` takes: wide letters and emoji two, marks on letters none.
[[nodiscard]] int terminalWidth(const QString& text);

/// `text` safe to print on one line: control characters, which could move a terminal's cursor,
/// become blanks.
[[nodiscard]] QString printable(const QString& text);

} // namespace otherskein::cli
