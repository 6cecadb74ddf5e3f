#include "trace/detail/pdf_words.h"

#include "trace/detail/text_runs.h"

#include <QPdfDocument>
#include <QPdfSelection>
#include <QRegularExpression>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr qsizetype kQuestion = 500; // signs that take as long as loading the page does

struct TextLine {
    std::vector<TextWord> words;
    bool says = false; ///< has a word of letters
    bool isWanted = false;
};

/// A whole number, as stands along a grid's edge.
bool isNumber(const QString& word) {
    return word.size() <= 4 &&
           std::ranges::all_of(word, [](QChar sign) { return sign >= u'0' && sign <= u'9'; });
}

/// Rows of digits that are symbols of a grid repeat; numbers along an edge grow, or stand at both
/// ends of a row.
bool isEdge(const std::vector<TextWord>& words) {
    if (words.size() == 2 && words[0].text == words[1].text) {
        return true;
    }
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (words[i].text.toInt() <= words[i - 1].text.toInt()) {
            return false;
        }
    }
    return true;
}

/// Numbers along an edge that are written upright, one beside the other, come as one word: where it
/// can be cut into numbers that grow by the same step, how long each is. None where it cannot.
std::vector<qsizetype> numbersIn(const QString& word) {
    constexpr qsizetype kLongest = 4;
    if (word.size() <= kLongest ||
        !std::ranges::all_of(word, [](QChar sign) { return sign >= u'0' && sign <= u'9'; })) {
        return {};
    }
    for (qsizetype first = 1; first < kLongest; ++first) {
        for (qsizetype second = first; second <= first + 1; ++second) {
            const int step = word.mid(first, second).toInt() - word.left(first).toInt();
            std::vector<qsizetype> lengths;
            qsizetype at = 0;
            for (int number = word.left(first).toInt(); step > 0 && at < word.size();
                 number += step) {
                const QString next = QString::number(number);
                if (word.mid(at, next.size()) != next) {
                    break;
                }
                lengths.push_back(next.size());
                at += next.size();
            }
            if (at == word.size() && lengths.size() > 2) {
                return lengths;
            }
        }
    }
    return {};
}

std::vector<TextLine> linesOf(const QString& text) {
    static const QRegularExpression line(QStringLiteral("[^\\r\\n]+"));
    static const QRegularExpression word(QStringLiteral("\\S+"));
    static const QRegularExpression telling(QStringLiteral("\\p{L}{2,}"));
    std::vector<TextLine> lines;
    for (auto matches = line.globalMatch(text); matches.hasNext();) {
        const auto one = matches.next();
        TextLine result;
        result.says = telling.match(one.capturedView()).hasMatch();
        bool hasNumbers = false;
        for (auto parts = word.globalMatch(one.capturedView()); parts.hasNext();) {
            const auto part = parts.next();
            const qsizetype start = one.capturedStart() + part.capturedStart();
            const std::vector<qsizetype> numbers = numbersIn(part.captured());
            qsizetype at = 0;
            for (const qsizetype length : numbers) {
                result.words.push_back({start + at, part.captured().mid(at, length), false, {}});
                at += length;
            }
            hasNumbers = hasNumbers || !numbers.empty();
            if (numbers.empty()) {
                result.words.push_back({start, part.captured(), true, {}});
            }
        }
        if (result.words.empty()) {
            continue; // spaces alone have no run
        }
        const auto& words = result.words;
        result.isWanted = result.says || hasNumbers ||
                          (std::ranges::all_of(words, isNumber, &TextWord::text) && isEdge(words));
        lines.push_back(std::move(result));
    }
    return lines;
}

/// Answers questions about a page's text, up to a bound: each costs a look at all of it.
class Asker {
  public:
    Asker(QPdfDocument& document, const QByteArray& pdf, int page, const QImage& picture,
          double scale)
        : m_document(document), m_page(page) {
        const QPdfSelection all = document.getAllText(page);
        m_text = all.text();
        m_frame = textFrameOf(boxesOf(all), pdf, picture, scale);
        m_runs = boxesOf(all);
    }

    [[nodiscard]] const QString& text() const { return m_text; }
    [[nodiscard]] const std::vector<QRectF>& runs() const { return m_runs; }

    /// The runs of a part of the text; none when too much was asked.
    [[nodiscard]] std::vector<QRectF> ask(qsizetype start, qsizetype length) {
        const qsizetype cost = m_text.size() + kQuestion;
        if (m_left < cost) {
            return {};
        }
        m_left -= cost;
        const QPdfSelection part =
            m_document.getSelectionAtIndex(m_page, indexOf(start), static_cast<int>(length));
        return boxesOf(part);
    }

  private:
    [[nodiscard]] std::vector<QRectF> boxesOf(const QPdfSelection& selection) const {
        std::vector<QRectF> boxes;
        for (const QPolygonF& polygon : selection.bounds()) {
            boxes.push_back(m_frame.shown(polygon.boundingRect()));
        }
        return boxes;
    }

    /// The PDF counts signs; a text in UTF-16 has two places for some.
    [[nodiscard]] int indexOf(qsizetype start) const {
        const auto pairs = std::ranges::count_if(QStringView(m_text).left(start),
                                                 [](QChar one) { return one.isLowSurrogate(); });
        return static_cast<int>(start - pairs);
    }

    QPdfDocument& m_document;
    int m_page;
    TextFrame m_frame;
    qsizetype m_left = kMostSigns;
    QString m_text;
    std::vector<QRectF> m_runs;
};

/// Gives each line its runs; where those do not go together as they stand, the PDF is asked how
/// many runs the first half of the lines has.
void layLines(Asker& asker, std::span<TextLine> lines, std::span<const QRectF> runs,
              const RunInk& ink) {
    if (lines.empty() || runs.empty() || std::ranges::none_of(lines, &TextLine::isWanted)) {
        return;
    }
    std::vector<std::span<const TextWord>> words;
    for (const TextLine& line : lines) {
        words.emplace_back(line.words);
    }
    const std::vector<std::size_t> counts = runsOfLines(words, runs);
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (lines[i].isWanted) {
            layWords(lines[i].words, runs.first(counts[i]), ink);
        }
        runs = runs.subspan(counts[i]);
    }
    if (!counts.empty()) {
        return;
    }
    const std::size_t half = lines.size() / 2;
    const qsizetype start = lines.front().words.front().start;
    const TextWord& last = lines[half - 1].words.back();
    const std::size_t count = asker.ask(start, last.start + last.text.size() - start).size();
    if (count == 0 || count > runs.size()) {
        return;
    }
    layLines(asker, lines.first(half), runs.first(count), ink);
    layLines(asker, lines.subspan(half), runs.subspan(count), ink);
}

/// Asks for words whose places were guessed: numbers first, from both ends, since they say most.
void makeSure(Asker& asker, std::vector<TextLine>& lines) {
    std::vector<TextWord*> open;
    for (const bool says : {false, true}) {
        for (TextLine& line : lines) {
            if (!line.isWanted || line.says != says) {
                continue;
            }
            for (std::size_t i = 0; i < line.words.size(); ++i) {
                TextWord& word =
                    i % 2 == 0 ? line.words[i / 2] : line.words[line.words.size() - 1 - i / 2];
                if (!word.isSure || word.box.isEmpty()) {
                    open.push_back(&word);
                }
            }
        }
    }
    for (TextWord* word : open) {
        const std::vector<QRectF> boxes = asker.ask(word->start, word->text.size());
        if (boxes.empty()) {
            continue;
        }
        word->box = {};
        for (const QRectF& box : boxes) {
            word->box |= box;
        }
        word->isSure = true;
    }
}

} // namespace

std::vector<Word> wordsOf(QPdfDocument& document, const QByteArray& pdf, int page,
                          const QImage& picture, double scale) {
    Asker asker(document, pdf, page, picture, scale);
    std::vector<TextLine> lines = linesOf(asker.text());
    layLines(asker, lines, asker.runs(), RunInk(picture, scale));
    makeSure(asker, lines);
    std::vector<Word> words;
    for (const TextLine& line : lines) {
        for (const TextWord& word : line.words) {
            const bool isOfLine = line.isWanted && (line.says || isNumber(word.text));
            if (!isOfLine || word.box.isEmpty() || words.size() >= kMostWords) {
                continue;
            }
            words.push_back({{word.box.topLeft() * scale, word.box.size() * scale}, word.text});
        }
    }
    return words;
}

} // namespace otherskein::trace::detail
