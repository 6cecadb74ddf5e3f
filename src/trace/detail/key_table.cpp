#include "trace/detail/key_table.h"

#include "trace/detail/assignment.h"
#include "trace/detail/key_pictures.h"
#include "trace/detail/key_sayings.h"
#include "trace/detail/views.h"

#include <QPolygonF>

#include <algorithm>
#include <iterator>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostLines = 300;
constexpr double kCounted = 0.6; // of its unlikeness, where a line tells the group's very count
constexpr int kTellingCount = 5; // smaller ones are as often strands
constexpr double kMargin = 0.08; // by which another way to read a table must be worse
// Groups that no line is left for may be a second part of one symbol: where they are about as like
// to its line, and not to another.
constexpr double kTwin = 0.2;
constexpr double kTwinLimit = 0.7;
constexpr double kTwinOther = 0.25;
constexpr double kTwinFarther = 0.5; // by which other lines are less like, however like this one is

bool isIn(const cv::Rect& mark, const Piece& piece) {
    return piece.grid.outline.containsPoint({mark.x + mark.width / 2.0, mark.y + mark.height / 2.0},
                                            Qt::OddEvenFill);
}

/// Width and height of the cells of a piece, px of its page.
cv::Size2d cellOf(const Piece& piece) {
    const QPolygonF& corners = piece.grid.outline;
    return {QLineF(corners[0], corners[1]).length() / piece.grid.columns,
            QLineF(corners[0], corners[3]).length() / piece.grid.rows};
}

/// Whether a word of letters stands beside, as in a key but not along a grid's edge.
bool isAccompanied(const Word& number, const std::vector<Word>& words) {
    constexpr double kBeside = 10; // heights
    const double height = number.box.height();
    return std::ranges::any_of(words, [&](const Word& word) {
        const double gap =
            std::max(word.box.left() - number.box.right(), number.box.left() - word.box.right());
        return std::abs(word.box.center().y() - number.box.center().y()) < height / 2 &&
               gap < kBeside * height &&
               std::ranges::count_if(word.text, [](QChar sign) { return sign.isLetter(); }) > 1;
    });
}

/// Words of a page that are neither in a grid nor numbers along its edges.
std::vector<Word> wordsOutside(const Page& page, std::span<const Piece> pieces, std::size_t p) {
    constexpr double kEdge = 4; // cells from a grid, up to which a number is of its edge
    std::vector<Word> words = page.words;
    for (const Piece& piece : pieces) {
        if (piece.page != p) {
            continue;
        }
        const double edge = kEdge * cellOf(piece).width;
        const QRectF around = piece.grid.outline.boundingRect().adjusted(-edge, -edge, edge, edge);
        std::erase_if(words, [&](const Word& word) {
            return piece.grid.outline.containsPoint(word.box.center(), Qt::OddEvenFill);
        });
        const std::vector<Word> outside = words;
        std::erase_if(words, [&](const Word& word) {
            bool isNumber = false;
            static_cast<void>(word.text.toInt(&isNumber));
            return isNumber && around.contains(word.box.center()) && !isAccompanied(word, outside);
        });
    }
    return words;
}

struct Table {
    std::vector<KeySaying> sayings;
    std::vector<std::vector<double>> costs; ///< lines by groups
};

Table tableOf(std::vector<KeyLine> lines, std::span<const Piece> pieces, const cv::Mat& view,
              const cv::Mat& paper, const std::vector<GroupLook>& groups, const cv::Size2d& cell) {
    // The chart's own cells stand beside a key too.
    for (KeyLine& line : lines) {
        std::erase_if(line.marks, [&](const cv::Rect& mark) {
            return std::ranges::any_of(pieces, [&](const Piece& one) { return isIn(mark, one); });
        });
    }
    std::erase_if(lines, [](const KeyLine& line) { return line.marks.empty(); });
    if (lines.empty() || lines.size() > kMostLines) {
        return {};
    }
    Table table{sayingsOf(lines), unlikeness(lines, view, paper, groups, cell)};
    for (std::size_t l = 0; l < lines.size(); ++l) {
        for (std::size_t g = 0; g < groups.size(); ++g) {
            if (groups[g].cells >= kTellingCount &&
                std::ranges::find(table.sayings[l].numbers, groups[g].cells) !=
                    table.sayings[l].numbers.end()) {
                table.costs[l][g] *= kCounted;
            }
        }
    }
    return table;
}

/// How many groups the lines tell, as good as they are like them.
double worthOf(const Table& table) {
    const auto taken = assigned(table.costs, 1);
    double worth = 0;
    for (std::size_t l = 0; l < taken.size(); ++l) {
        worth += taken[l] ? 1 - table.costs[l][*taken[l]] : 0;
    }
    return worth;
}

/// What a page's table says: most have the picture before the text, some after it.
/// `pieces`: those of the page.
Table tableOn(const Page& page, std::span<const Piece> pieces, const std::vector<Word>& words,
              const std::vector<GroupLook>& groups, const cv::Size2d& cell) {
    constexpr double kEnough = 0.5; // of the groups, where there is no need to look further
    const cv::Mat view = viewOf(page.picture);
    const cv::Mat paper = paperOf(view);
    Table before = tableOf(keyLines(words, view, paper), pieces, view, paper, groups, cell);
    const double worth = worthOf(before);
    if (worth > kEnough * static_cast<double>(groups.size())) {
        return before;
    }
    Table after = tableOf(keyLinesAfter(words, view, paper), pieces, view, paper, groups, cell);
    return worthOf(after) > worth ? after : before;
}

/// Numbers after names are counts and no codes, where they often are what was counted.
void dropCounts(Table& table, const std::vector<std::optional<std::size_t>>& taken,
                const std::vector<GroupLook>& groups) {
    int counts = 0;
    int all = 0;
    for (std::size_t l = 0; l < taken.size(); ++l) {
        const KeySaying& saying = table.sayings[l];
        if (taken[l] && saying.codeIsNumber) {
            ++all;
            counts += saying.proposal.code == QString::number(groups[*taken[l]].cells) ? 1 : 0;
        }
    }
    if (counts * 4 >= all) {
        for (KeySaying& saying : table.sayings) {
            if (saying.codeIsNumber) {
                saying.proposal.code.clear();
            }
        }
    }
}

/// Whether group `g`, which no line is left for, goes with `main` to line `l`.
bool isTwin(const std::vector<std::vector<double>>& costs, std::size_t l, std::size_t main,
            std::size_t g) {
    double other = 1e9;
    for (std::size_t k = 0; k < costs.size(); ++k) {
        other = k == l ? other : std::min(other, costs[k][g]);
    }
    return costs[l][g] < kTwinLimit &&
           (costs[l][g] + kTwinFarther < other ||
            (costs[l][g] < costs[l][main] + kTwin && costs[l][g] + kTwinOther < other));
}

/// Whether line `l` may say what group `g` is: no other way to lay lines and groups to each other
/// is about as good.
bool isClear(const std::vector<std::vector<double>>& costs,
             const std::vector<std::optional<std::size_t>>& taken, std::size_t l, std::size_t g,
             const std::vector<GroupLook>& groups) {
    std::vector<std::optional<std::size_t>> lineOf(groups.size());
    for (std::size_t k = 0; k < taken.size(); ++k) {
        if (taken[k]) {
            lineOf[*taken[k]] = k;
        }
    }
    for (std::size_t other = 0; other < groups.size(); ++other) {
        if (other == g) {
            continue;
        }
        double change = costs[l][other] - costs[l][g];
        if (lineOf[other]) {
            const std::size_t k = *lineOf[other];
            change += std::min(1.0, costs[k][g]) - costs[k][other];
        } else if (isTwin(costs, l, g, other)) {
            continue; // one symbol in two groups: either is right
        }
        if (change < kMargin) {
            return false;
        }
    }
    for (std::size_t k = 0; k < taken.size(); ++k) { // a line that goes without
        if (!taken[k] && costs[k][g] - costs[l][g] < kMargin) {
            return false;
        }
    }
    return true;
}

} // namespace

void proposeKey(std::span<const Page> pages, std::span<const Piece> pieces,
                const std::vector<GroupLook>& looks, const std::vector<chart::KeyIndex>& rowOf,
                chart::Key& key) {
    std::vector<GroupLook> groups;
    std::vector<chart::KeyIndex> rows;
    for (std::size_t g = 0; g < looks.size(); ++g) {
        if (rowOf[g] != chart::kBare) {
            groups.push_back(looks[g]);
            rows.push_back(rowOf[g]);
        }
    }
    Table table;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        const std::vector<Word> words = wordsOutside(pages[p], pieces, p);
        if (!words.empty() && !groups.empty()) {
            std::vector<Piece> here;
            std::ranges::copy_if(pieces, std::back_inserter(here),
                                 [p](const Piece& piece) { return piece.page == p; });
            Table one = tableOn(pages[p], here, words, groups, cellOf(pieces[0]));
            std::ranges::move(one.sayings, std::back_inserter(table.sayings));
            std::ranges::move(one.costs, std::back_inserter(table.costs));
        }
    }
    const auto taken = assigned(table.costs, 1);
    dropCounts(table, taken, groups);
    std::vector<char> isTaken(groups.size(), 0);
    for (const auto& group : taken) {
        if (group) {
            isTaken[*group] = 1;
        }
    }
    const auto propose = [&](std::size_t l, std::size_t g) {
        const KeyProposal& proposal = table.sayings[l].proposal;
        key[rows[g]].code = proposal.code;
        key[rows[g]].name = proposal.name;
    };
    for (std::size_t l = 0; l < taken.size(); ++l) {
        if (!taken[l] || !isClear(table.costs, taken, l, *taken[l], groups)) {
            continue;
        }
        propose(l, *taken[l]);
        for (std::size_t g = 0; g < groups.size(); ++g) {
            if (isTaken[g] == 0 && isTwin(table.costs, l, *taken[l], g)) {
                propose(l, g);
            }
        }
    }
}

} // namespace otherskein::trace::detail
