#include "trace/detail/content_words.h"

#include <QByteArrayView>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

bool isBlank(char c) {
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == '\0';
}

bool isDelimiter(char c) {
    return c == '(' || c == ')' || c == '<' || c == '>' || c == '[' || c == ']' || c == '{' ||
           c == '}' || c == '/' || c == '%';
}

bool isRegular(char c) {
    return !isBlank(c) && !isDelimiter(c);
}

bool beginsNumber(char c) {
    return (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '.';
}

bool isOctal(char c) {
    return c >= '0' && c <= '7';
}

bool isHex(char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

bool isText(char c) {
    return isBlank(c) ? c != '\0' : c > ' ' && c <= '~';
}

} // namespace

double numberIn(std::string_view text) {
    bool isNumber = false;
    const double value =
        QByteArrayView(text.data(), static_cast<qsizetype>(text.size())).toDouble(&isNumber);
    return isNumber && std::isfinite(value) ? value : 0;
}

void ContentWords::passBlanks() {
    while (m_at < m_content.size()) {
        if (m_content[m_at] == '%') {
            m_at = std::min(m_content.find_first_of("\r\n", m_at), m_content.size());
        } else if (isBlank(m_content[m_at])) {
            ++m_at;
        } else {
            return;
        }
    }
}

void ContentWords::passPicture() {
    constexpr std::size_t kLooked = 12; // letters behind a picture's end that are no picture
    std::size_t end = m_at;
    while ((end = m_content.find("EI", end + 1)) != std::string_view::npos) {
        const std::string_view rest = m_content.substr(end + 2, kLooked);
        if (isBlank(m_content[end - 1]) && (rest.empty() || isBlank(rest[0])) &&
            std::ranges::all_of(rest, isText)) {
            m_at = end + 2;
            return;
        }
    }
    m_at = m_content.size();
}

std::optional<ContentWord> ContentWords::next() {
    using Kind = ContentWord::Kind;
    passBlanks();
    if (m_at >= m_content.size()) {
        return std::nullopt;
    }
    const std::size_t from = m_at;
    const char first = m_content[m_at++];
    if (first == '(') {
        for (int depth = 1; depth > 0 && m_at < m_content.size(); ++m_at) {
            const char c = m_content[m_at];
            m_at += c == '\\' ? 1 : 0;
            depth += c == '(' ? 1 : c == ')' ? -1 : 0;
        }
        m_at = std::min(m_at, m_content.size());
        return ContentWord{Kind::String, taken(from)};
    }
    if (first == '<' && !m_content.substr(m_at).starts_with('<')) {
        const std::size_t end = m_content.find('>', m_at);
        m_at = end == std::string_view::npos ? m_content.size() : end + 1;
        return ContentWord{Kind::String, taken(from)};
    }
    if (first == '[' || first == ']') {
        return ContentWord{Kind::Operand, taken(from)};
    }
    if (first != '/' && isDelimiter(first)) {
        m_at += first != '{' && first != '}' && m_content.substr(m_at).starts_with(first) ? 1 : 0;
        return ContentWord{Kind::Other, taken(from)};
    }
    while (m_at < m_content.size() && isRegular(m_content[m_at])) {
        ++m_at;
    }
    if (first == '/' || beginsNumber(first)) {
        return ContentWord{Kind::Operand, taken(from)};
    }
    const ContentWord word{Kind::Operator, taken(from)};
    if (word.text == "ID") {
        passPicture();
    }
    return word;
}

std::size_t bytesIn(std::string_view string) {
    if (string.starts_with('<')) {
        return (static_cast<std::size_t>(std::ranges::count_if(string, isHex)) + 1) / 2;
    }
    std::size_t count = 0;
    for (std::size_t i = 1; i < string.size(); ++i, ++count) {
        if (string[i] != '\\' || i + 1 == string.size()) {
            continue;
        }
        ++i;
        for (int digits = 1;
             digits < 3 && isOctal(string[i]) && i + 1 < string.size() && isOctal(string[i + 1]);
             ++digits) {
            ++i;
        }
    }
    return count > 0 ? count - 1 : 0; // its last bracket
}

} // namespace otherskein::trace::detail
