#include "trace/detail/key_table.h"

#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <QPolygonF>
#include <QRegularExpression>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr double kLeastMatch = 0.62; // correlation of a table's picture with a symbol
constexpr double kColourStep = 26;   // grey levels at which a colour's match counts nothing

/// One line of a table: its text and where a picture may stand before it.
struct Entry {
    QRectF box;
    std::vector<Word> words;
};

bool isInGrid(const Word& word, std::span<const Piece> pieces, std::size_t page) {
    return std::ranges::any_of(pieces, [&](const Piece& piece) {
        return piece.page == page &&
               piece.grid.outline.containsPoint(word.box.center(), Qt::OddEvenFill);
    });
}

/// Whether `word` goes on in the same row of the same column of a table.
bool goesOn(const Entry& entry, const Word& word) {
    static const QRegularExpression amount(QStringLiteral("^\\d{1,2}$"));
    const double height = std::max(entry.box.height(), word.box.height());
    const double gap = word.box.left() - entry.box.right();
    if (std::abs(entry.box.bottom() - word.box.bottom()) > 0.6 * height || gap > 5 * height) {
        return false;
    }
    if (entry.words.size() < 3) {
        return true;
    }
    // A number of strands ends a row; a lone sign is the next column's symbol.
    const bool ended = amount.match(entry.words.back().text).hasMatch() && gap > 1.2 * height;
    const bool begins = word.text.size() == 1 && !word.text[0].isDigit();
    return !ended && !begins;
}

/// Words in one line, near each other, are an entry; a wide gap starts another.
std::vector<Entry> entriesOf(std::vector<Word> words) {
    std::ranges::stable_sort(words, {}, [](const Word& one) { return one.box.left(); });
    std::vector<Entry> entries;
    for (const Word& word : words) {
        const auto last = std::find_if(entries.rbegin(), entries.rend(),
                                       [&](const Entry& entry) { return goesOn(entry, word); });
        if (last == entries.rend()) {
            entries.push_back({word.box, {word}});
        } else {
            last->words.push_back(word);
            last->box |= word.box;
        }
    }
    // A symbol that is text itself is what the picture shows, not what says its name.
    for (Entry& entry : entries) {
        if (entry.words.size() > 1 && entry.words.front().text.size() == 1) {
            entry.words.erase(entry.words.begin());
            entry.box.setLeft(entry.words.front().box.left());
        }
    }
    return entries;
}

/// Blue, green and red of a group on the whole.
cv::Scalar meanColour(const GroupLook& look, double light) {
    cv::Vec2d tints;
    constexpr int kPlaces = kLookTints * kLookTints;
    for (int i = 0; i < kPlaces; ++i) {
        tints[0] +=
            static_cast<double>(look.mean.at<float>(kLookSide * kLookSide + 2 * i)) / kPlaces;
        tints[1] +=
            static_cast<double>(look.mean.at<float>(kLookSide * kLookSide + 2 * i + 1)) / kPlaces;
    }
    const cv::Vec3f bgr = colourOfLook(static_cast<float>(light), static_cast<float>(tints[0]),
                                       static_cast<float>(tints[1]));
    return {bgr[0], bgr[1], bgr[2]};
}

/// How well a picture beside an entry shows a group's symbol, 0 to 1.
double matchOf(const cv::Mat& picture, double height, const GroupLook& look) {
    cv::Mat light(kLookSide, kLookSide, CV_32F);
    for (int i = 0; i < kLookSide * kLookSide; ++i) {
        light.at<float>(i / kLookSide, i % kLookSide) = 255 + look.mean.at<float>(i);
    }
    cv::Scalar mean;
    cv::Scalar spread;
    cv::meanStdDev(light, mean, spread);
    if (spread[0] < 9) { // a fill without a symbol: its colour somewhere in the picture
        cv::Mat blurred;
        const int side = std::max(3, static_cast<int>(height / 3));
        cv::blur(picture, blurred, {side, side});
        double best = 1e9;
        for (int y = side / 2; y < blurred.rows - side / 2; ++y) {
            for (int x = side / 2; x < blurred.cols - side / 2; ++x) {
                const auto& at = blurred.at<cv::Vec3b>(y, x);
                best = std::min(best,
                                static_cast<double>(std::max({std::abs(at[0] - look.ground.b),
                                                              std::abs(at[1] - look.ground.g),
                                                              std::abs(at[2] - look.ground.r)})));
            }
        }
        return std::max(0.0, 1 - best / kColourStep);
    }
    const cv::Scalar here = meanColour(look, mean[0]);
    cv::Mat grey;
    cv::cvtColor(picture, grey, cv::COLOR_BGR2GRAY);
    grey.convertTo(grey, CV_32F);
    double best = 0;
    for (double size = 0.6 * height; size < 2.2 * height; size *= 1.09) {
        const int side = static_cast<int>(size);
        if (side < 8 || side >= grey.rows || side >= grey.cols) {
            continue;
        }
        cv::Mat wanted;
        cv::resize(light, wanted, {side, side}, 0, 0, cv::INTER_LINEAR);
        cv::Mat scores;
        cv::matchTemplate(grey, wanted, scores, cv::TM_CCOEFF_NORMED);
        double most = 0;
        cv::Point place;
        cv::minMaxLoc(scores, nullptr, &most, nullptr, &place);
        // Shapes of different colours are different symbols.
        const cv::Scalar there = cv::mean(picture(cv::Rect(place, cv::Size(side, side))));
        const double step = std::max({std::abs(there[0] - here[0]), std::abs(there[1] - here[1]),
                                      std::abs(there[2] - here[2])});
        best = std::max(best, most - 0.3 * std::min(1.0, step / 90));
    }
    return best;
}

/// The code is what comes up to the first word with a digit; the name what follows, without a
/// number of strands at the end.
KeyProposal proposalOf(const Entry& entry) {
    static const QRegularExpression digit(QStringLiteral("\\d"));
    static const QRegularExpression letters(QStringLiteral("\\p{L}{2,}"));
    QStringList words;
    for (const Word& word : entry.words) {
        words.push_back(word.text);
    }
    const auto coded = std::ranges::find_if(
        words, [](const QString& word) { return digit.match(word).hasMatch(); });
    KeyProposal proposal;
    if (coded == words.end() || std::distance(words.begin(), coded) > 2) {
        proposal.name = words.join(QLatin1Char(' '));
        return proposal;
    }
    const auto rest = std::next(coded);
    proposal.code = QStringList(words.begin(), rest).join(QLatin1Char(' '));
    QStringList name(rest, words.end());
    while (!name.isEmpty() && !letters.match(name.back()).hasMatch()) {
        name.pop_back();
    }
    proposal.name = name.join(QLatin1Char(' '));
    return proposal;
}

struct Match {
    double score;
    std::size_t group;
    std::size_t entry;
};

void matchPage(const Page& page, const std::vector<Entry>& entries,
               const std::vector<GroupLook>& looks, const std::vector<chart::KeyIndex>& rowOf,
               std::size_t firstEntry, std::vector<Match>& matches) {
    const cv::Mat view = viewOf(page.picture);
    for (std::size_t e = 0; e < entries.size(); ++e) {
        const QRectF& box = entries[e].box;
        const double height = std::ranges::max(entries[e].words, {}, [](const Word& word) {
                                  return word.box.height();
                              }).box.height();
        const cv::Rect before =
            cv::Rect(static_cast<int>(box.left() - 4.5 * height),
                     static_cast<int>(box.center().y() - 1.1 * height),
                     static_cast<int>(4.6 * height), static_cast<int>(2.2 * height)) &
            cv::Rect(0, 0, view.cols, view.rows);
        if (before.width < 8 || before.height < 8) {
            continue;
        }
        for (std::size_t g = 0; g < looks.size(); ++g) {
            if (rowOf[g] == chart::kBare) {
                continue;
            }
            if (const double score = matchOf(view(before), height, looks[g]); score > kLeastMatch) {
                matches.push_back({score, g, firstEntry + e});
            }
        }
    }
}

} // namespace

void proposeKey(std::span<const Page> pages, std::span<const Piece> pieces,
                const std::vector<GroupLook>& looks, const std::vector<chart::KeyIndex>& rowOf,
                chart::Key& key) {
    constexpr std::size_t kMostEntries = 150;
    std::vector<Entry> all;
    std::vector<Match> matches;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        std::vector<Word> outside;
        for (const Word& word : pages[p].words) {
            if (!isInGrid(word, pieces, p)) {
                outside.push_back(word);
            }
        }
        std::vector<Entry> entries = entriesOf(std::move(outside));
        static const QRegularExpression letters(QStringLiteral("\\p{L}{2,}"));
        std::erase_if(entries, [](const Entry& entry) {
            return std::ranges::none_of(
                entry.words, [](const Word& word) { return letters.match(word.text).hasMatch(); });
        });
        if (entries.size() > kMostEntries) {
            continue;
        }
        matchPage(pages[p], entries, looks, rowOf, all.size(), matches);
        all.insert(all.end(), entries.begin(), entries.end());
    }
    std::ranges::stable_sort(matches, std::greater<>(), &Match::score);
    std::vector<char> usedGroup(looks.size(), 0);
    std::vector<char> usedEntry(all.size(), 0);
    for (const Match& match : matches) {
        if (usedGroup[match.group] != 0 || usedEntry[match.entry] != 0) {
            continue;
        }
        usedGroup[match.group] = 1;
        usedEntry[match.entry] = 1;
        const KeyProposal proposal = proposalOf(all[match.entry]);
        chart::KeyRow& row = key[rowOf[match.group]];
        row.code = proposal.code;
        row.name = proposal.name;
    }
}

} // namespace otherskein::trace::detail
