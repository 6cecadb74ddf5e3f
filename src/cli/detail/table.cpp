#include "cli/detail/table.h"

#include <QList>

#include <algorithm>
#include <array>
#include <utility>

namespace otherskein::cli {

namespace {

constexpr int kWidestCell = 44;
constexpr int kGap = 2;
constexpr int kRemarkIndent = 5;

/// The blocks that terminals draw two columns wide, after Unicode's East Asian Width property
/// (UAX #11) and its emoji blocks; rough at the edges.
constexpr std::array<std::pair<char32_t, char32_t>, 11> kWide{{{0x1100, 0x115F},
                                                               {0x231A, 0x231B},
                                                               {0x2E80, 0x303E},
                                                               {0x3041, 0xA4CF},
                                                               {0xAC00, 0xD7A3},
                                                               {0xF900, 0xFAFF},
                                                               {0xFE30, 0xFE6F},
                                                               {0xFF00, 0xFF60},
                                                               {0xFFE0, 0xFFE6},
                                                               {0x1F300, 0x1FAFF},
                                                               {0x20000, 0x3FFFD}}};

int widthOf(char32_t letter) {
    switch (QChar::category(letter)) {
    case QChar::Mark_NonSpacing:
    case QChar::Mark_Enclosing:
    case QChar::Other_Format:
        return 0;
    default:
        break;
    }
    return std::ranges::any_of(
               kWide,
               [=](const auto& block) { return letter >= block.first && letter <= block.second; })
               ? 2
               : 1;
}

/// `text` cut to `kWidestCell` columns.
QString fitted(const QString& text) {
    if (terminalWidth(text) <= kWidestCell) {
        return text;
    }
    QString kept;
    int width = 1; // of the …
    for (const char32_t letter : text.toUcs4()) {
        width += widthOf(letter);
        if (width > kWidestCell) {
            break;
        }
        kept += QString::fromUcs4(&letter, 1);
    }
    return kept + QChar(0x2026);
}

QString padded(const QString& text, int width, Table::Align align) {
    const QString blanks(std::max(0, width - terminalWidth(text)), QLatin1Char(' '));
    return align == Table::Align::Right ? blanks + text : text + blanks;
}

QString withoutBlanksAtEnd(QString line) {
    while (line.endsWith(QLatin1Char(' '))) {
        line.chop(1);
    }
    return line + QLatin1Char('\n');
}

} // namespace

int terminalWidth(const QString& text) {
    int width = 0;
    for (const char32_t letter : text.toUcs4()) {
        width += widthOf(letter);
    }
    return width;
}

QString printable(const QString& text) {
    QString shown = text;
    for (QChar& c : shown) {
        const bool breaksLine = c.category() == QChar::Other_Control ||
                                c.category() == QChar::Separator_Line ||
                                c.category() == QChar::Separator_Paragraph;
        if (breaksLine) {
            c = QLatin1Char(' ');
        }
    }
    return shown;
}

Table::Table(std::vector<Column> columns) : m_columns(std::move(columns)) {}

void Table::addRow(const std::vector<QString>& cells) {
    Row row;
    for (const QString& cell : cells) {
        row.cells.push_back(fitted(printable(cell)));
    }
    row.cells.resize(m_columns.size());
    m_rows.push_back(std::move(row));
}

void Table::addRemark(const QString& remark) {
    m_rows.back().remarks.push_back(printable(remark));
}

QString Table::text() const {
    std::vector<int> widths;
    for (std::size_t i = 0; i < m_columns.size(); ++i) {
        int width = terminalWidth(m_columns[i].title);
        for (const Row& row : m_rows) {
            width = std::max(width, terminalWidth(row.cells[i]));
        }
        widths.push_back(width);
    }
    const QString gap(kGap, QLatin1Char(' '));
    const auto line = [&](auto cell) {
        QString joined;
        for (std::size_t i = 0; i < m_columns.size(); ++i) {
            joined += (i == 0 ? QString() : gap) + padded(cell(i), widths[i], m_columns[i].align);
        }
        return withoutBlanksAtEnd(joined);
    };
    QString text = line([&](std::size_t i) { return m_columns[i].title; });
    for (const Row& row : m_rows) {
        text += line([&](std::size_t i) { return row.cells[i]; });
        for (const QString& remark : row.remarks) {
            text += QString(kRemarkIndent, QLatin1Char(' ')) + QStringLiteral("! ") + remark +
                    QLatin1Char('\n');
        }
    }
    return text;
}

} // namespace otherskein::cli
