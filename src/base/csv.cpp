#include "base/csv.h"

#include "base/input_error.h"
#include "base/number.h"

#include <QList>
#include <QStringDecoder>

namespace otherskein::base {

namespace {

/// For counting rows of a file that is refused before its records are known.
QByteArray withLineFeeds(QByteArray bytes) {
    return bytes.replace("\r\n", "\n").replace('\r', '\n');
}

QString decoded(const QByteArray& bytes, const QString& source) {
    const qsizetype nul = bytes.indexOf('\0');
    if (nul >= 0) {
        const int row = 1 + static_cast<int>(withLineFeeds(bytes.left(nul)).count('\n'));
        throw InputError({source,
                          row,
                          {},
                          QStringLiteral("text without NUL bytes"),
                          QStringLiteral("a NUL byte at byte %1").arg(nul)});
    }
    QStringDecoder decoder(QStringDecoder::Utf8, QStringDecoder::Flag::Stateless);
    QString text = decoder.decode(bytes);
    if (decoder.hasError()) {
        // Find the row by the longest valid beginning; the file is refused, so time does not
        // matter.
        int row = 1;
        for (const QByteArray& line : withLineFeeds(bytes).split('\n')) {
            QStringDecoder one(QStringDecoder::Utf8, QStringDecoder::Flag::Stateless);
            const QString ignored = one.decode(line);
            if (one.hasError()) {
                break;
            }
            ++row;
        }
        throw InputError({source,
                          row,
                          {},
                          QStringLiteral("UTF-8 text (save the file as \"CSV UTF-8\")"),
                          QStringLiteral("bytes that are not UTF-8")});
    }
    return text;
}

class Reader {
  public:
    Reader(const QString& text, const QString& source, const CsvLimits& limits)
        : m_text(text), m_source(source), m_limits(limits) {}

    std::vector<CsvRecord> read() {
        while (m_at < m_text.size()) {
            ++m_row;
            CsvRecord record = readRecord();
            if (record.cells.size() == 1 && record.cells.front().isEmpty() && !m_sawQuote) {
                continue; // an empty line
            }
            checkWidth(record);
            m_records.push_back(std::move(record));
            if (std::ssize(m_records) > m_limits.mostRows) {
                fail(QStringLiteral("at most %1 rows").arg(m_limits.mostRows),
                     QStringLiteral("more"));
            }
        }
        return std::move(m_records);
    }

  private:
    const QString& m_text;
    const QString& m_source;
    const CsvLimits& m_limits;
    qsizetype m_at = 0;
    int m_row = 0;
    bool m_sawQuote = false;
    std::vector<CsvRecord> m_records;

    [[noreturn]] void fail(const QString& expected, const QString& found) const {
        throw InputError({m_source, m_row, {}, expected, found});
    }

    void checkWidth(const CsvRecord& record) const {
        if (!m_records.empty() && record.cells.size() != m_records.front().cells.size()) {
            fail(QStringLiteral("%1 fields as in the header").arg(m_records.front().cells.size()),
                 QStringLiteral("%1").arg(record.cells.size()));
        }
    }

    [[nodiscard]] bool atLineEnd() const { return m_text[m_at] == u'\n' || m_text[m_at] == u'\r'; }

    void skipLineEnd() {
        if (m_text[m_at] == u'\r' && m_at + 1 < m_text.size() && m_text[m_at + 1] == u'\n') {
            ++m_at;
        }
        ++m_at;
    }

    CsvRecord readRecord() {
        CsvRecord record{.row = m_row, .cells = {}};
        m_sawQuote = false;
        while (true) {
            record.cells.push_back(restored(readCell()));
            if (std::ssize(record.cells) > m_limits.mostColumns) {
                fail(QStringLiteral("at most %1 columns").arg(m_limits.mostColumns),
                     QStringLiteral("more"));
            }
            if (m_at >= m_text.size()) {
                return record;
            }
            if (m_text[m_at] == u',') {
                ++m_at;
                continue;
            }
            skipLineEnd();
            return record;
        }
    }

    QString readCell() {
        const bool quoted = m_at < m_text.size() && m_text[m_at] == u'"';
        QString cell = quoted ? readQuoted() : readBare();
        if (cell.size() > m_limits.longestCell) {
            fail(QStringLiteral("a cell of at most %1 characters").arg(m_limits.longestCell),
                 QStringLiteral("%1 characters").arg(cell.size()));
        }
        return cell;
    }

    QString readBare() {
        const qsizetype start = m_at;
        while (m_at < m_text.size() && m_text[m_at] != u',' && !atLineEnd()) {
            if (m_text[m_at] == u'"') {
                fail(QStringLiteral("quotes around the whole cell, with quotes inside it doubled"),
                     QStringLiteral("a quote in the middle of ") +
                         quotedForMessage(m_text.mid(start, m_at - start + 1)));
            }
            ++m_at;
        }
        return m_text.mid(start, m_at - start);
    }

    QString readQuoted() {
        m_sawQuote = true;
        const qsizetype start = m_at++;
        QString cell;
        while (m_at < m_text.size()) {
            const QChar c = m_text[m_at++];
            if (c != u'"') {
                cell += c;
                continue;
            }
            if (m_at < m_text.size() && m_text[m_at] == u'"') {
                cell += c;
                ++m_at;
                continue;
            }
            if (m_at < m_text.size() && m_text[m_at] != u',' && !atLineEnd()) {
                fail(QStringLiteral("a comma or the end of the row after a closing quote"),
                     quotedForMessage(m_text.mid(m_at, 1)));
            }
            return cell;
        }
        fail(QStringLiteral("a closing quote"),
             QStringLiteral("the end of the file inside the cell that begins with ") +
                 quotedForMessage(m_text.mid(start, 20)));
    }
};

/// True for text that a spreadsheet would take for a formula, behind any number of apostrophes.
bool looksLikeFormula(const QString& cell) {
    qsizetype at = 0;
    while (at < cell.size() && cell[at] == u'\'') {
        ++at;
    }
    return at < cell.size() && QStringView(u"=+-@\t\r").contains(cell[at]);
}

} // namespace

std::vector<CsvRecord> readCsv(const QByteArray& bytes, const QString& source,
                               const CsvLimits& limits) {
    const QString text = decoded(bytes, source);
    return Reader(text, source, limits).read();
}

QString neutralised(const QString& cell) {
    if (!looksLikeFormula(cell) || parseNumber(cell)) {
        return cell;
    }
    return QLatin1Char('\'') + cell;
}

QString restored(const QString& cell) {
    return cell.startsWith(QLatin1Char('\'')) && looksLikeFormula(cell) ? cell.mid(1) : cell;
}

QByteArray csvLine(const std::vector<QString>& cells) {
    QString line;
    for (const QString& raw : cells) {
        if (!line.isEmpty() || &raw != &cells.front()) {
            line += QLatin1Char(',');
        }
        QString cell = neutralised(raw);
        // A lone empty cell is quoted, or the row would read as an empty line; U+FEFF, or it would
        // be taken for a byte order mark at the start of a file.
        const bool quote = cell.contains(u',') || cell.contains(u'"') || cell.contains(u'\n') ||
                           cell.contains(u'\r') || cell.startsWith(u'\ufeff') ||
                           (cells.size() == 1 && cell.isEmpty());
        if (quote) {
            cell.replace(u'"', QStringLiteral("\"\""));
            cell = QLatin1Char('"') + cell + QLatin1Char('"');
        }
        line += cell;
    }
    return line.toUtf8() + "\r\n";
}

} // namespace otherskein::base
