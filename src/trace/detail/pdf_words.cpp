#include "trace/detail/pdf_words.h"

#include <QElapsedTimer>
#include <QPdfDocument>
#include <QPdfSelection>
#include <QRegularExpression>

namespace otherskein::trace::detail {

std::vector<Word> wordsOf(QPdfDocument& document, int page, double scale) {
    const QString text = document.getAllText(page).text();
    static const QRegularExpression line(QStringLiteral("[^\\r\\n]+"));
    static const QRegularExpression word(QStringLiteral("\\S+"));
    static const QRegularExpression telling(QStringLiteral("\\p{L}{2,}"));
    static const QRegularExpression number(QStringLiteral("^\\d{1,4}$"));
    QElapsedTimer clock;
    clock.start();
    std::vector<Word> words;
    for (auto lines = line.globalMatch(text); lines.hasNext();) {
        const auto one = lines.next();
        const bool says = telling.match(one.captured()).hasMatch();
        for (auto parts = word.globalMatch(one.captured()); parts.hasNext();) {
            const auto part = parts.next();
            if (!says && !number.match(part.captured()).hasMatch()) {
                continue;
            }
            if (words.size() >= kMostWords || clock.hasExpired(kMostMs)) {
                return words;
            }
            const auto selection = document.getSelectionAtIndex(
                page, static_cast<int>(one.capturedStart() + part.capturedStart()),
                static_cast<int>(part.capturedLength()));
            const QRectF box = selection.boundingRectangle();
            if (!box.isEmpty()) {
                words.push_back({{box.topLeft() * scale, box.size() * scale}, part.captured()});
            }
        }
    }
    return words;
}

} // namespace otherskein::trace::detail
