#include "trace/detail/key_lines.h"

#include "trace/detail/median.h"

#include "trace/detail/sheet.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

// Lengths in heights of capitals.
constexpr double kSameLine = 0.6;   // by which words of a line may stand higher or lower
constexpr double kSameLeft = 0.25;  // and lines of a column begin further left or right
constexpr double kWordGap = 0.9;    // that part columns; spaces are narrower
constexpr double kFarGap = 14;      // beyond which a word is another table's
constexpr double kMarkZone = 12;    // left of a text, in which its picture stands
constexpr double kMarkWidest = 6.5; // wider ones are no swatch
constexpr double kMarkGap = 0.5;    // that parts a picture from what stands before it
constexpr std::size_t kMostMarks = 3;
constexpr double kTextNear = 6; // right of a line's left end, where other texts are of its column

bool rises(const QString& word) {
    static const QString tall = QStringLiteral("bdfhklt");
    return std::ranges::any_of(word, [](QChar letter) {
        return letter.isUpper() || letter.isDigit() || tall.contains(letter);
    });
}

bool falls(const QString& word) {
    static const QString tails = QStringLiteral("gjpqy,;()[]|@Q$/");
    return std::ranges::any_of(word, [](QChar letter) { return tails.contains(letter); });
}

bool isText(const QString& word) {
    return std::ranges::count_if(word, [](QChar letter) { return letter.isLetterOrNumber(); }) > 1;
}

/// What of a page is no paper, within a box.
class Marks {
  public:
    Marks(const cv::Mat& bgr, const cv::Mat& paper, const cv::Rect& box)
        : m_box(box & cv::Rect({}, bgr.size())), m_unlike(m_box.size(), CV_8U) {
        if (m_box.empty()) {
            return;
        }
        const int bx = std::clamp((box.x + box.width / 2) / kPaperBlock, 0, paper.cols - 1);
        const int by = std::clamp((box.y + box.height / 2) / kPaperBlock, 0, paper.rows - 1);
        const cv::Vec3f white = paper.at<cv::Vec3f>(by, bx);
        double noise = 0;
        int count = 0;
        for (int y = 0; y < m_box.height; ++y) {
            for (int x = 0; x < m_box.width; ++x) {
                const auto& one = bgr.at<cv::Vec3b>(m_box.y + y, m_box.x + x);
                double most = 0;
                for (int c = 0; c < 3; ++c) {
                    most = std::max(most, std::abs(static_cast<double>(one[c]) -
                                                   static_cast<double>(white[c])));
                }
                m_unlike.at<uchar>(y, x) = cv::saturate_cast<uchar>(most);
                if (most < 40) {
                    noise += most;
                    ++count;
                }
            }
        }
        const double least = std::clamp(3 + 5 * noise / std::max(1, count), 4.0, 60.0);
        m_unlike = m_unlike > least;
    }

    [[nodiscard]] const cv::Rect& box() const { return m_box; }
    [[nodiscard]] cv::Mat& mask() { return m_unlike; }

  private:
    cv::Rect m_box;
    cv::Mat m_unlike;
};

/// A word that may begin a line, measured on the page itself, since a PDF tells the height of a
/// whole run.
struct Start {
    std::size_t word = 0;
    double before = 0; ///< right end of the text before it
    double top = -1;   ///< of its capitals, if it has any
    double bottom = -1;
    double reach = 0;

    [[nodiscard]] bool isMeasured() const { return top >= 0 && bottom >= 0; }
    [[nodiscard]] double middle(double capital) const {
        return top >= 0 ? top + capital / 2 : bottom - capital / 2;
    }
};

void measure(Start& start, const Word& word, const cv::Mat& bgr, const cv::Mat& paper) {
    const QRect box = word.box.toAlignedRect().adjusted(0, -1, 0, 1);
    Marks marks(bgr, paper, {box.x(), box.y(), box.width(), box.height()});
    int first = -1;
    int last = -1;
    for (int y = 0; y < marks.box().height; ++y) {
        const int ink = cv::countNonZero(marks.mask().row(y));
        if (ink > 0 && ink < marks.box().width) { // not a rule under the text
            first = first < 0 ? y : first;
            last = y;
        }
    }
    const double top = first < 0 ? word.box.top() : marks.box().y + first;
    const double bottom = first < 0 ? word.box.bottom() : marks.box().y + last + 1;
    if (rises(word.text)) {
        start.top = top;
    }
    if (!falls(word.text)) {
        start.bottom = bottom;
    }
    if (start.top < 0 && start.bottom < 0) {
        start.bottom = top + 0.75 * (bottom - top);
    }
}

/// What stands left of a text, the nearest first, without rules of the table.
std::vector<cv::Rect> marksBefore(const Start& start, const Word& word, double capital, double near,
                                  const cv::Mat& bgr, const cv::Mat& paper) {
    const double x = word.box.left();
    const double y = start.middle(capital);
    const double left = std::max({0.0, start.before + 0.2 * capital, x - 2 * near * capital});
    const auto up = static_cast<int>(std::lround(1.6 * start.reach));
    const int zone = static_cast<int>(std::floor(x - 0.15 * capital)) - static_cast<int>(left);
    const auto beyond = static_cast<int>(3 * capital);
    if (zone < 4) {
        return {};
    }
    Marks page(bgr, paper,
               {static_cast<int>(left), static_cast<int>(y) - up, zone + beyond, 2 * up + 1});
    cv::Mat mask = page.mask();
    if (mask.cols <= zone) {
        return {};
    }
    for (int row = 0; row < mask.rows; ++row) { // rules that go on under the text
        if (cv::countNonZero(mask.row(row).colRange(zone, mask.cols)) > 0.9 * (mask.cols - zone)) {
            mask.row(row).setTo(0);
        }
    }
    mask = mask.colRange(0, zone).clone();
    const auto half = static_cast<int>(std::floor(0.94 * start.reach));
    const int middle = static_cast<int>(y) - page.box().y;
    const int top = std::max(0, middle - half);
    const int bottom = std::min(mask.rows, middle + half + 1);
    if (bottom <= top) {
        return {};
    }
    const cv::Mat whole = mask;
    mask = mask.rowRange(top, bottom);
    const auto thin = std::max(3, static_cast<int>(0.3 * capital));
    // Rules from one line to the next: thin, and nothing beside them as in a frame.
    const auto inkIn = [&](int column) {
        return column < 0 || column >= zone ? 0 : cv::countNonZero(mask.col(column));
    };
    for (int column = 0; column < zone; ++column) {
        int end = column;
        while (inkIn(end) > 0 && end - column <= thin) {
            ++end;
        }
        int tallest = 0;
        for (int c = column; c < end; ++c) {
            tallest = std::max(tallest, inkIn(c));
        }
        if (end - column <= thin && inkIn(column - 1) == 0 && tallest > 0.7 * mask.rows) {
            mask.colRange(column, end).setTo(0);
        }
    }
    // From the text leftwards, parted by clear gaps.
    const auto gap = static_cast<int>(std::ceil(kMarkGap * capital));
    std::vector<cv::Rect> marks;
    int end = zone;
    while (end > 0 && marks.size() < kMostMarks) {
        int right = -1;
        int first = -1;
        for (int column = end - 1; column >= 0; --column) {
            if (inkIn(column) > 0) {
                right = right < 0 ? column : right;
                first = column;
            } else if (right >= 0 && first - column >= gap) {
                break;
            }
        }
        if (right < 0 || end - right > near * capital || right - first > kMarkWidest * capital) {
            break;
        }
        int upper = -1;
        int lower = -1;
        for (int row = 0; row < mask.rows; ++row) {
            if (cv::countNonZero(mask.row(row).colRange(first, right + 1)) > 0) {
                upper = upper < 0 ? row : upper;
                lower = row;
            }
        }
        // What goes on a little beyond is all of it, unless the next line's touches it.
        const auto isBlank = [&](int row) {
            return row < 0 || row >= whole.rows ||
                   cv::countNonZero(whole.row(row).colRange(first, right + 1)) == 0;
        };
        const int most = half / 2;
        int above = 0;
        int below = 0;
        while (above <= most && upper == 0 && !isBlank(top - 1 - above)) {
            ++above;
        }
        while (below <= most && lower == mask.rows - 1 && !isBlank(bottom + below)) {
            ++below;
        }
        upper -= above <= most ? above : 0;
        lower += below <= most ? below : 0;
        const cv::Rect mark(page.box().x + first, page.box().y + top + upper, right + 1 - first,
                            lower + 1 - upper);
        if (std::max(mark.width, mark.height) >= 0.2 * capital && mark.y < y + capital &&
            mark.br().y > y - capital) {
            marks.push_back(mark);
        }
        end = first;
    }
    return marks;
}

/// Half way to the next text above or below, of the same column or left of it.
double reachOf(const Start& start, const std::vector<Start>& starts, const std::vector<Word>& words,
               double capital) {
    const double y = start.middle(capital);
    const QRectF& box = words[start.word].box;
    double reach = 4 * capital;
    bool isLone = true;
    for (const Start& other : starts) {
        const double away = std::abs(other.middle(capital) - y);
        if (away > capital &&
            std::abs(words[other.word].box.left() - box.left()) < kSameLeft * capital) {
            reach = std::min(reach, away / 2);
            isLone = false;
        }
    }
    for (const Word& other : words) {
        const double away = std::abs(other.box.center().y() - y);
        if (isText(other.text) && away > 1.2 * capital &&
            other.box.right() > box.left() - kMarkZone * capital &&
            other.box.left() < box.left() + kTextNear * capital) {
            // Tails and heads move its middle a bit.
            reach = std::min(reach, away / 2 + 0.2 * capital);
        }
    }
    return isLone ? std::min(reach, 1.3 * capital) : reach;
}

bool inLine(const Word& one, const Word& other) {
    return std::abs(one.box.center().y() - other.box.center().y()) <
           kSameLine * std::min(one.box.height(), other.box.height());
}

/// Where texts begin: where no other text is near to the left. `words` from left to right; those
/// that are signs are no text.
std::vector<Start> startsOf(const std::vector<Word>& words, const std::vector<char>& isSign,
                            const cv::Mat& bgr, const cv::Mat& paper) {
    constexpr std::size_t kMostStarts = 600;
    std::vector<Start> starts;
    std::vector<char> goesOn(words.size(), 0); // is text, or a sign within a text
    for (std::size_t w = 0; w < words.size() && starts.size() < kMostStarts; ++w) {
        Start start{w, words[w].box.left() - 1e6};
        bool isNext = false;
        for (std::size_t k = 0; k < w; ++k) {
            if (goesOn[k] != 0 && inLine(words[k], words[w])) {
                start.before = std::max(start.before, words[k].box.right());
                isNext = isNext || words[w].box.left() - words[k].box.right() <
                                       kWordGap * 0.75 * words[w].box.height();
            }
        }
        const bool isFirst = isText(words[w].text) && isSign[w] == 0;
        goesOn[w] = isNext || isFirst ? 1 : 0;
        if (isFirst && !isNext) {
            measure(start, words[w], bgr, paper);
            starts.push_back(start);
        }
    }
    return starts;
}

bool isFrameSide(const cv::Rect& mark, double capital) {
    return mark.width < 0.6 * capital && mark.height > 1.3 * capital;
}

/// Height of capitals in texts of about the size of this one.
double capitalOf(const Start& start, const std::vector<Start>& starts,
                 const std::vector<Word>& words) {
    std::vector<double> near;
    for (const Start& other : starts) {
        const double ratio = words[other.word].box.height() / words[start.word].box.height();
        if (other.isMeasured() && ratio > 0.7 && ratio < 1.4) {
            near.push_back(other.bottom - other.top);
        }
    }
    return near.empty() ? 0.8 * words[start.word].box.height() : medianOf(near);
}

} // namespace

std::vector<KeyLine> keyLines(std::vector<Word> words, const cv::Mat& bgr, const cv::Mat& paper,
                              double near) {
    std::ranges::stable_sort(words, {}, [](const Word& word) { return word.box.left(); });
    std::vector<char> isSign(words.size(), 0);
    std::vector<Start> starts = startsOf(words, isSign, bgr, paper);
    std::vector<KeyLine> lines;
    std::vector<std::size_t> firstOf;
    const auto find = [&] {
        lines.clear();
        firstOf.clear();
        bool isPlain = true;
        for (Start& start : starts) {
            const Word& word = words[start.word];
            KeyLine line;
            line.capital = capitalOf(start, starts, words);
            start.reach = reachOf(start, starts, words, line.capital);
            line.anchor = {word.box.left(), start.middle(line.capital)};
            line.marks = marksBefore(start, word, line.capital, near, bgr, paper);
            const bool isFar = word.box.left() - start.before > kMarkZone / 2 * line.capital;
            if (word.text.size() == 2 && word.text.toInt() > 0 &&
                (line.marks.empty() ? isFar : isFrameSide(line.marks.front(), line.capital))) {
                isSign[start.word] = 1;
                isPlain = false;
            } else if (!line.marks.empty()) {
                lines.push_back(line);
                firstOf.push_back(start.word);
            }
        }
        return isPlain;
    };
    // A number of two digits with no picture before it may be the picture of what follows.
    if (!find()) {
        starts = startsOf(words, isSign, bgr, paper);
        find();
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Word& first = words[firstOf[i]];
        double end = 1e9; // where the next text with a picture begins
        for (std::size_t k = 0; k < lines.size(); ++k) {
            const Word& other = words[firstOf[k]];
            if (inLine(first, other) && other.box.left() > first.box.left() + 1) {
                end = std::min(end, static_cast<double>(lines[k].marks.back().x));
            }
        }
        double right = first.box.left();
        for (const Word& word : words) {
            if (word.box.left() >= first.box.left() && word.box.center().x() < end &&
                inLine(first, word) && word.box.left() - right < kFarGap * lines[i].capital) {
                lines[i].words.push_back(word);
                right = std::max(right, word.box.right());
            }
        }
    }
    return lines;
}

} // namespace otherskein::trace::detail
