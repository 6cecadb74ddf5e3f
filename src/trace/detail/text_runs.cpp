#include "trace/detail/text_runs.h"

#include <QtMath>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostWordsInLine = 600; // laying them costs up to their cube
constexpr double kCapital = 0.78;             // of the height of a run with tails
constexpr std::size_t kMostByInk = 40;        // words, whose gaps are looked at to lay them to runs
constexpr double kSpace = 0.4;                // width of a space, in heights of capitals
constexpr double kNoInk = 10;                 // cost of words whose run shows no ink for them
constexpr double kGapWorth = 2; // of a gap, against the square of what a word's width is off
constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr double kLoose = 1.35; // a run that much wider than its text has gaps in it

double widthOfLetter(QChar letter) {
    static const QString narrow = QStringLiteral("iljtfrI1.,:;'!|()[]-/\\");
    static const QString wide = QStringLiteral("mwMWGOQ@%&");
    if (narrow.contains(letter)) {
        return 0.42;
    }
    return wide.contains(letter) ? 1.1 : letter.isUpper() ? 0.9 : 0.75;
}

bool hasTail(QStringView text) {
    static const QString tails = QStringLiteral("gjpqy,;()[]|@Q$");
    return std::ranges::any_of(text, [](QChar letter) { return tails.contains(letter); });
}

double widthOfWords(std::span<const TextWord> words) {
    double width = kSpace * static_cast<double>(words.size() - 1);
    for (const TextWord& word : words) {
        width += usualWidth(word.text);
    }
    return width;
}

/// Runs that stand in one row, one after the other.
struct RunRow {
    std::size_t runs = 0;
    double width = 0; ///< of all of them, in heights of capitals
};

std::vector<RunRow> rowsOf(std::span<const QRectF> runs) {
    std::vector<RunRow> rows;
    std::vector<double> heights;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const bool goesOn = i > 0 && std::min(runs[i].bottom(), runs[i - 1].bottom()) >
                                         std::max(runs[i].top(), runs[i - 1].top());
        if (!goesOn) {
            rows.emplace_back();
            heights.push_back(0);
        }
        ++rows.back().runs;
        rows.back().width += runs[i].width();
        heights.back() = std::max(heights.back(), runs[i].height());
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].width /= std::max(1e-6, kCapital * heights[i]);
    }
    return rows;
}

/// Whether a line says something: a grid's row, of single signs, may be any width.
bool isText(std::span<const TextWord> line) {
    return std::ranges::any_of(line, [](const TextWord& word) {
        return std::ranges::count_if(word.text, [](QChar one) { return one.isLetter(); }) > 1;
    });
}

bool fits(std::span<const TextWord> line, const RunRow& row) {
    constexpr double kMost = 3; // a column's gap may be in a run, and fonts may be narrow
    const double ratio = widthOfWords(line) / std::max(0.05, row.width);
    return row.runs <= lettersOf(line) && ratio < kMost && ratio > 1 / kMost;
}

/// Words end at gaps of a run's ink: those that are wide and leave each word its usual width. How
/// badly that goes, in squares of heights of capitals; kNever where it does not.
double shareByInk(std::span<TextWord> words, const QRectF& run, double capital, const RunInk& ink) {
    const std::vector<std::pair<double, double>>& stretches = ink.stretches(run);
    const std::size_t count = stretches.size();
    if (count < words.size() || count > kMostWordsInLine) {
        return kNever;
    }
    // cost[w][s]: the first w words hold the first s stretches.
    std::vector<std::vector<double>> cost(words.size() + 1, std::vector<double>(count + 1, kNever));
    std::vector<std::vector<std::size_t>> from(words.size() + 1,
                                               std::vector<std::size_t>(count + 1, 0));
    cost[0][0] = 0;
    for (std::size_t w = 1; w <= words.size(); ++w) {
        const double usual = usualWidth(words[w - 1].text);
        for (std::size_t s = w; s + (words.size() - w) <= count; ++s) {
            for (std::size_t before = w - 1; before < s; ++before) {
                const double width = (stretches[s - 1].second - stretches[before].first) / capital;
                const double gap =
                    before == 0
                        ? 0
                        : (stretches[before].first - stretches[before - 1].second) / capital;
                const double off = (width - usual) / std::sqrt(usual);
                const double sum = cost[w - 1][before] + off * off - kGapWorth * gap;
                if (sum < cost[w][s]) {
                    cost[w][s] = sum;
                    from[w][s] = before;
                }
            }
        }
    }
    std::size_t end = count;
    for (std::size_t w = words.size(); w > 0; --w) {
        const std::size_t begin = from[w][end];
        const double left = stretches[begin].first;
        words[w - 1].box = QRectF(left, run.top(), stretches[end - 1].second - left, run.height());
        words[w - 1].isSure = true;
        end = begin;
    }
    return cost[words.size()][count];
}

double capitalOf(std::span<const TextWord> words, const QRectF& run) {
    const bool tail =
        std::ranges::any_of(words, [](const TextWord& word) { return hasTail(word.text); });
    return run.height() * (tail ? kCapital : 1.0);
}

/// Shares a run among its words: each its usual part, what is left in gaps of one width.
void share(std::span<TextWord> words, const QRectF& run, const RunInk& ink) {
    if (words.size() == 1) {
        words[0].box = run;
        return;
    }
    const double capital = capitalOf(words, run);
    const double usual = widthOfWords(words) * capital;
    const bool loose = run.width() > kLoose * usual;
    const bool turned = run.height() > 1.5 * run.width();
    if (loose && !turned && shareByInk(words, run, capital, ink) < kNever) {
        return;
    }
    const double unit = loose ? capital : capital * run.width() / std::max(1e-6, usual);
    const double gap =
        loose ? kSpace * unit + (run.width() - usual) / static_cast<double>(words.size() - 1)
              : kSpace * unit;
    double x = run.left();
    for (TextWord& word : words) {
        const double width = usualWidth(word.text) * unit;
        word.box = QRectF(x, run.top(), width, run.height());
        word.isSure = !loose && !turned;
        x += width + gap;
    }
}

} // namespace

double usualWidth(QStringView text) {
    double width = 0;
    for (const QChar letter : text) {
        width += widthOfLetter(letter);
    }
    return width;
}

std::size_t lettersOf(std::span<const TextWord> words) {
    std::size_t count = 0;
    for (const TextWord& word : words) {
        count += static_cast<std::size_t>(std::ranges::count_if(
            word.text, [](QChar letter) { return !letter.isLowSurrogate(); }));
    }
    return count;
}

const std::vector<std::pair<double, double>>& RunInk::stretches(const QRectF& run) const {
    if (run == m_run) {
        return m_stretches;
    }
    m_run = run;
    const QRect box = QRect(QPoint(qFloor(run.left() * m_scale), qFloor(run.top() * m_scale)),
                            QPoint(qCeil(run.right() * m_scale), qCeil(run.bottom() * m_scale)))
                          .intersected(m_picture.rect());
    const int beyond = std::max(2, box.height() / 3);
    const QRect tall = box.adjusted(0, -beyond, 0, beyond).intersected(m_picture.rect());
    const auto light = [this](int x, int y) {
        const uchar* pixel = m_picture.constScanLine(y) + 3 * static_cast<qsizetype>(x);
        return std::min({pixel[0], pixel[1], pixel[2]});
    };
    uchar paper = 0;
    for (int y = box.top(); y <= box.bottom(); ++y) {
        for (int x = box.left(); x <= box.right(); ++x) {
            paper = std::max(paper, light(x, y));
        }
    }
    std::vector<std::pair<double, double>>& result = m_stretches;
    result.clear();
    bool inside = false;
    for (int x = box.left(); x <= box.right(); ++x) {
        int dark = 0;
        int all = 0;
        for (int y = tall.top(); y <= tall.bottom(); ++y) {
            const bool isInk = light(x, y) < paper - 40;
            all += isInk ? 1 : 0;
            dark += isInk && y >= box.top() && y <= box.bottom() ? 1 : 0;
        }
        const bool isInk = dark > 0 && all < tall.height();
        if (isInk && !inside) {
            result.emplace_back(x / m_scale, 0);
        }
        if (isInk) {
            result.back().second = (x + 1) / m_scale;
        }
        inside = isInk;
    }
    return result;
}

std::vector<std::size_t> runsOfLines(std::span<const std::span<const TextWord>> lines,
                                     std::span<const QRectF> runs) {
    std::vector<std::size_t> counts;
    for (const auto& line : lines) {
        counts.push_back(lettersOf(line));
    }
    if (std::accumulate(counts.begin(), counts.end(), std::size_t{0}) == runs.size()) {
        return counts;
    }
    if (lines.size() == 1) {
        return {runs.size()};
    }
    const std::vector<RunRow> rows = rowsOf(runs);
    if (rows.size() != lines.size()) {
        return {};
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (isText(lines[i]) && !fits(lines[i], rows[i])) {
            return {};
        }
        counts[i] = rows[i].runs;
    }
    return counts;
}

void layWords(std::span<TextWord> words, std::span<const QRectF> runs, const RunInk& ink) {
    if (words.empty() || runs.empty()) {
        return;
    }
    if (runs.size() == lettersOf(words)) { // each letter by itself, as some programs write
        for (TextWord& word : words) {
            word.box = {};
            for (std::size_t i = lettersOf(std::span(&word, 1)); i > 0; --i) {
                word.box |= runs.front();
                runs = runs.subspan(1);
            }
        }
        return;
    }
    if (runs.size() > words.size()) { // words in pieces: only the line as a whole is known
        QRectF all;
        for (const QRectF& run : runs) {
            all |= run;
        }
        share(words, all, ink);
        for (TextWord& word : words) {
            word.isSure = words.size() == 1;
        }
        return;
    }
    if (words.size() > kMostWordsInLine) {
        return;
    }
    double total = 0;
    for (const QRectF& run : runs) {
        total += run.width();
    }
    double usual = 0;
    for (const TextWord& word : words) {
        usual += usualWidth(word.text);
    }
    const double unit = total / std::max(1e-6, usual);
    // cost[r][w]: the first r runs hold the first w words.
    const std::size_t count = words.size();
    const bool byInk = runs.size() > 1 && count <= kMostByInk;
    std::vector<std::vector<double>> cost(runs.size() + 1, std::vector<double>(count + 1, kNever));
    std::vector<std::vector<std::size_t>> from(runs.size() + 1,
                                               std::vector<std::size_t>(count + 1, 0));
    cost[0][0] = 0;
    for (std::size_t r = 1; r <= runs.size(); ++r) {
        for (std::size_t w = r; w + (runs.size() - r) <= count; ++w) {
            for (std::size_t before = r - 1; before < w; ++before) {
                if (cost[r - 1][before] == kNever) {
                    continue;
                }
                const auto part = words.subspan(before, w - before);
                const double off = widthOfWords(part) * unit - runs[r - 1].width();
                double step = off * off;
                if (byInk) {
                    const double capital = capitalOf(part, runs[r - 1]);
                    const double fit = shareByInk(part, runs[r - 1], capital, ink);
                    // Where ink does not show (on a dark cell) widths must do.
                    step = fit < kNever ? fit : kNoInk + step / (capital * capital);
                }
                if (const double sum = cost[r - 1][before] + step; sum < cost[r][w]) {
                    cost[r][w] = sum;
                    from[r][w] = before;
                }
            }
        }
    }
    std::size_t end = count;
    for (std::size_t r = runs.size(); r > 0; --r) {
        const std::size_t begin = from[r][end];
        share(words.subspan(begin, end - begin), runs[r - 1], ink);
        end = begin;
    }
}

} // namespace otherskein::trace::detail
