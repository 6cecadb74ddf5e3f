#include "thread/cgats_text.h"

#include "base/input_error.h"

#include <QStringDecoder>

#include <string_view>

namespace otherskein::thread {

namespace {

constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";

bool isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool isLineEnd(char c) {
    return c == '\n' || c == '\r';
}

/// Parts text as littleCMS's reader does: words, strings in either quote, comments.
class Words {
  public:
    explicit Words(const QByteArray& text)
        : m_text(text.constData(), static_cast<std::size_t>(text.size())) {}

    /// The blanks before the next word, then the word; both empty at the end.
    struct Word {
        std::string_view blanks;
        std::string_view text;

        [[nodiscard]] bool is(const char* keyword) const {
            return QByteArray::fromRawData(text.data(), static_cast<qsizetype>(text.size()))
                       .compare(keyword, Qt::CaseInsensitive) == 0;
        }
        /// `""`, or a quote that the line's end closes.
        [[nodiscard]] bool isEmptyString() const {
            return !isBare() && text.front() != '#' &&
                   (text.size() == 1 || text == "\"\"" || text == "''");
        }
        [[nodiscard]] bool isBare() const {
            return text.front() != '"' && text.front() != '\'' && text.front() != '#';
        }
    };

    Word next() {
        const std::size_t start = m_at;
        while (m_at < m_text.size() && isBlank(m_text[m_at])) {
            ++m_at;
        }
        const std::size_t word = m_at;
        if (m_at < m_text.size()) {
            const char first = m_text[m_at++];
            const bool quoted = first == '"' || first == '\'';
            while (m_at < m_text.size() && !isLineEnd(m_text[m_at]) &&
                   (quoted ? m_text[m_at] != first : first == '#' || !isBlank(m_text[m_at]))) {
                ++m_at;
            }
            if (quoted && m_at < m_text.size() && m_text[m_at] == first) {
                ++m_at;
            }
        }
        return {m_text.substr(start, word - start), m_text.substr(word, m_at - word)};
    }

  private:
    std::string_view m_text;
    std::size_t m_at = 0;
};

void append(QByteArray& out, std::string_view text) {
    out.append(text.data(), static_cast<qsizetype>(text.size()));
}

/// A word that holds both kinds of quote stays bare; no number or code does.
void appendQuoted(QByteArray& out, std::string_view word) {
    const bool hasDouble = word.find('"') != std::string_view::npos;
    const bool hasSingle = word.find('\'') != std::string_view::npos;
    const std::string_view quote = hasDouble && hasSingle ? "" : hasDouble ? "'" : "\"";
    append(out, quote);
    append(out, word);
    append(out, quote);
}

void checkText(const QByteArray& bytes, const QString& source) {
    const qsizetype nul = bytes.indexOf('\0');
    if (nul >= 0) {
        throw base::InputError({source,
                                {},
                                {},
                                QStringLiteral("text without NUL bytes"),
                                QStringLiteral("a NUL byte at byte %1").arg(nul)});
    }
    QStringDecoder decoder(QStringDecoder::Utf8, QStringDecoder::Flag::Stateless);
    const QString ignored = decoder.decode(bytes);
    if (decoder.hasError()) {
        throw base::InputError({source,
                                {},
                                {},
                                QStringLiteral("UTF-8 text"),
                                QStringLiteral("bytes that are not UTF-8")});
    }
    // Wherever it stands: the reader parts odd quotes in its own way.
    const QByteArray upper = bytes.toUpper();
    if (upper.contains(".INCLUDE") || upper.contains("$INCLUDE")) {
        throw base::InputError({source,
                                {},
                                {},
                                QStringLiteral("a file that stands alone"),
                                QStringLiteral("an include of another file")});
    }
}

} // namespace

bool looksLikeCgats(const QByteArray& bytes) {
    if (!bytes.contains("BEGIN_DATA_FORMAT")) {
        return false;
    }
    // A note on a CSV card may hold the keyword. But the header of a CSV card has at least two
    // columns, so its first line has a comma or opens a quote, and CGATS's first line is one word.
    QByteArray start = bytes.left(1000);
    if (start.startsWith(kByteOrderMark)) {
        start.remove(0, 3);
    }
    for (const char c : start.trimmed()) {
        if (c == ',' || c == '"') {
            return false;
        }
        if (isLineEnd(c)) {
            break;
        }
    }
    return true;
}

QByteArray mendedCgats(const QByteArray& bytes, const QString& source) {
    checkText(bytes, source);
    const QByteArray text = bytes.startsWith(kByteOrderMark) ? bytes.mid(3) : bytes;
    QByteArray out;
    out.reserve(text.size() + text.size() / 2);
    bool inData = false;
    Words words(text);
    for (auto word = words.next(); !word.text.empty(); word = words.next()) {
        append(out, word.blanks);
        if (inData && word.isBare() && !word.is("END_DATA")) {
            appendQuoted(out, word.text);
            continue;
        }
        if (word.isEmptyString()) {
            append(out, "\" \"");
            continue;
        }
        inData = word.is("BEGIN_DATA") || (inData && !word.is("END_DATA"));
        append(out, word.text);
    }
    return out + '\n';
}

} // namespace otherskein::thread
