#include "trace/detail/key_sayings.h"

#include <algorithm>
#include <map>

namespace otherskein::trace::detail {

namespace {

enum class Kind { Number, Coded, Letters, Other };

/// Digits in parts, as some makers number threads.
bool isParted(const QString& word) {
    return word.size() > 2 && word.front().isDigit() && word.back().isDigit() &&
           std::ranges::all_of(word, [](QChar one) {
               return one.isDigit() || one == u'.' || one == u'-' || one == u'/';
           });
}

/// So many strands: digits with a sign of multiplication.
bool isTimes(const QString& word) {
    static const QString signs = QStringLiteral("xX×*");
    if (word.size() < 2 || word.size() > 3) {
        return false;
    }
    const bool isBefore = signs.contains(word.front());
    const QString digits = isBefore ? word.mid(1) : word.chopped(1);
    return (isBefore || signs.contains(word.back())) &&
           std::ranges::all_of(digits, [](QChar one) { return one.isDigit(); });
}

Kind kindOf(const QString& word) {
    if (isTimes(word)) {
        return Kind::Other;
    }
    const auto digits = std::ranges::count_if(word, [](QChar one) { return one.isDigit(); });
    const auto letters = std::ranges::count_if(word, [](QChar one) { return one.isLetter(); });
    if (digits == 0) {
        return letters > 0 ? Kind::Letters : Kind::Other;
    }
    if (digits == word.size()) {
        return Kind::Number;
    }
    return letters > 0 || isParted(word) ? Kind::Coded : Kind::Other;
}

/// A word of a few capitals, as stands before a thread's number.
bool mayPrefix(const QString& word) {
    return word.size() <= 5 && std::ranges::all_of(word, [](QChar one) { return one.isUpper(); });
}

struct Parts {
    std::vector<Kind> kinds;
    std::vector<bool> isPrefix;
    std::size_t nameBegin = 0;
    std::size_t nameEnd = 0; ///< none where it equals the begin
};

/// The first run of letters that is no prefix of a number.
Parts partsOf(const KeyLine& line, const std::map<QString, int>& prefixes) {
    Parts parts;
    for (const Word& word : line.words) {
        parts.kinds.push_back(kindOf(word.text));
    }
    const std::size_t count = parts.kinds.size();
    for (std::size_t i = 0; i < count; ++i) {
        parts.isPrefix.push_back(i + 1 < count && parts.kinds[i] == Kind::Letters &&
                                 parts.kinds[i + 1] == Kind::Number &&
                                 prefixes.contains(line.words[i].text));
    }
    const auto isName = [&](std::size_t i) {
        return parts.kinds[i] == Kind::Letters && !parts.isPrefix[i];
    };
    std::size_t i = 0;
    while (i < count && !isName(i)) {
        ++i;
    }
    parts.nameBegin = i;
    // Signs between its words belong to a name, those at its end do not.
    for (parts.nameEnd = i; i < count; ++i) {
        if (isName(i)) {
            parts.nameEnd = i + 1;
        } else if (parts.kinds[i] != Kind::Other) {
            break;
        }
    }
    return parts;
}

QString joinedWords(const KeyLine& line, std::size_t begin, std::size_t end) {
    QStringList words;
    for (std::size_t i = begin; i < end; ++i) {
        words << line.words[i].text;
    }
    QString text = words.join(QLatin1Char(' '));
    while (!text.isEmpty() && QStringLiteral(",;:.-–—").contains(text.back())) {
        text.chop(1); // what parts it from the next
    }
    return text.trimmed();
}

/// Letters that stand before a number in several lines, and hardly anywhere else.
std::map<QString, int> prefixesOf(const std::vector<KeyLine>& lines) {
    std::map<QString, int> prefixes;
    for (const KeyLine& line : lines) {
        for (std::size_t i = 0; i + 1 < line.words.size(); ++i) {
            if (mayPrefix(line.words[i].text) && kindOf(line.words[i].text) == Kind::Letters &&
                kindOf(line.words[i + 1].text) == Kind::Number) {
                const double gap = line.words[i + 1].box.left() - line.words[i].box.right();
                if (gap < line.capital) {
                    ++prefixes[line.words[i].text];
                }
            }
        }
    }
    const auto kinds = static_cast<int>(prefixes.size());
    const auto count = static_cast<int>(lines.size());
    std::erase_if(prefixes, [&](const auto& one) {
        return one.second * 4 < count && kinds > std::max(3, count / 4);
    });
    return prefixes;
}

/// Of the numbers at one place after the name, whether they are codes: mostly different, and not
/// all small as strands are.
bool areCodes(const std::vector<int>& numbers) {
    std::map<int, int> seen;
    int small = 0;
    for (const int number : numbers) {
        ++seen[number];
        small += number <= 12 ? 1 : 0;
    }
    return static_cast<int>(seen.size()) * 4 >= static_cast<int>(numbers.size()) * 3 &&
           small * 2 < static_cast<int>(numbers.size());
}

} // namespace

std::vector<KeySaying> sayingsOf(const std::vector<KeyLine>& lines) {
    const std::map<QString, int> prefixes = prefixesOf(lines);
    std::vector<Parts> parts;
    std::vector<int> after; // the first number after the name, where no code comes before it
    for (const KeyLine& line : lines) {
        parts.push_back(partsOf(line, prefixes));
        const Parts& one = parts.back();
        const auto end = one.kinds.begin() + static_cast<std::ptrdiff_t>(one.nameEnd);
        const auto begin = one.kinds.begin() + static_cast<std::ptrdiff_t>(one.nameBegin);
        if (std::find_if(one.kinds.begin(), begin, [](Kind kind) {
                return kind == Kind::Number || kind == Kind::Coded;
            }) == begin) {
            if (const auto number = std::find(end, one.kinds.end(), Kind::Number);
                number != one.kinds.end()) {
                after.push_back(
                    line.words[static_cast<std::size_t>(number - one.kinds.begin())].text.toInt());
            }
        }
    }
    const bool codesFollow = !after.empty() && areCodes(after);
    std::vector<KeySaying> sayings;
    for (std::size_t l = 0; l < lines.size(); ++l) {
        const KeyLine& line = lines[l];
        const Parts& one = parts[l];
        std::optional<std::size_t> code;
        for (std::size_t i = 0; i < one.kinds.size(); ++i) {
            // After a name, digits with a point may as well be a length.
            const QString& word = line.words[i].text;
            if (one.kinds[i] == Kind::Coded && !code &&
                (i < one.nameBegin || !isParted(word) || !word.contains(u'.'))) {
                code = i;
            }
        }
        for (std::size_t i = one.nameBegin; i-- > 0 && !code;) {
            if (one.kinds[i] == Kind::Number) {
                code = i;
            }
        }
        KeySaying saying;
        for (std::size_t i = one.nameEnd; i < one.kinds.size() && !code; ++i) {
            if (one.kinds[i] == Kind::Number && (codesFollow || (i > 0 && one.isPrefix[i - 1]))) {
                code = i;
                saying.codeIsNumber = i == 0 || !one.isPrefix[i - 1];
            }
        }
        if (code) {
            saying.proposal.code = *code > 0 && one.isPrefix[*code - 1]
                                       ? joinedWords(line, *code - 1, *code + 1)
                                       : joinedWords(line, *code, *code + 1);
        }
        saying.proposal.name = joinedWords(line, one.nameBegin, one.nameEnd);
        for (std::size_t i = 0; i < one.kinds.size(); ++i) {
            if (one.kinds[i] == Kind::Number && (i != code || saying.codeIsNumber)) {
                saying.numbers.push_back(line.words[i].text.toInt());
            }
        }
        sayings.push_back(std::move(saying));
    }
    return sayings;
}

} // namespace otherskein::trace::detail
