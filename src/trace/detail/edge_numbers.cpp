#include "trace/detail/edge_numbers.h"

#include "trace/detail/views.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr double kReach = 4;       // cells from the edge, up to which a number is of the grid
constexpr double kSameRow = 0.35;  // cells by which numbers of one row stand nearer or further
constexpr double kTolerance = 0.4; // cells by which a number may stand beside its line or cell

/// A number beside the grid: how far from its edge, in cells, and where along it.
struct EdgeNumber {
    double away = 0;
    double at = 0;
    int number = 0;
};

/// What numbers say the first is, each as often as it is said.
struct Votes {
    std::map<int, int> atCell;
    std::map<int, int> atLine;
};

/// The most of what is said; none unless it outweighs the rest two to one.
std::optional<std::pair<int, int>> most(const std::map<int, int>& votes) {
    int all = 0;
    std::pair<int, int> best{0, 0};
    for (const auto& [first, count] : votes) {
        all += count;
        if (count > best.second) {
            best = {first, count};
        }
    }
    return best.second * 3 > all * 2 ? std::optional(best) : std::nullopt;
}

/// Numbers along an edge stand in one row; what else has numbers (a line that says how many
/// stitches) stands in another, and agrees on nothing.
void vote(std::vector<EdgeNumber> side, Votes& votes) {
    std::ranges::sort(side, {}, &EdgeNumber::away);
    for (std::size_t first = 0; first < side.size();) {
        std::size_t end = first + 1;
        while (end < side.size() && side[end].away - side[first].away < kSameRow) {
            ++end;
        }
        Votes row;
        for (std::size_t i = first; i < end; ++i) {
            const double middle = side[i].at - 0.5; // of cell 0, 1 …
            if (std::abs(middle - std::round(middle)) < 0.5 - kTolerance / 2) {
                ++row.atCell[side[i].number - static_cast<int>(std::round(middle))];
            }
            if (std::abs(side[i].at - std::round(side[i].at)) < kTolerance) {
                // The line behind its cell.
                ++row.atLine[side[i].number - static_cast<int>(std::round(side[i].at)) + 1];
            }
        }
        if (const auto said = most(row.atCell)) {
            votes.atCell[said->first] += said->second;
        }
        if (const auto said = most(row.atLine)) {
            votes.atLine[said->first] += said->second;
        }
        first = end;
    }
}

/// At least two must agree.
std::optional<int> agreed(const std::map<int, int>& votes) {
    const auto said = most(votes);
    return said && said->second > 1 ? std::optional(said->first) : std::nullopt;
}

} // namespace

void readEdgeNumbers(const std::vector<Word>& words, FoundGrid& grid) {
    const cv::Matx33d toCells = latticeOf(grid).toPage.inv();
    const auto cellAt = [&toCells](const QPointF& place) {
        const cv::Vec3d at = toCells * cv::Vec3d(place.x(), place.y(), 1);
        return cv::Point2d(at[0] / at[2], at[1] / at[2]);
    };
    std::vector<EdgeNumber> above;
    std::vector<EdgeNumber> below;
    std::vector<EdgeNumber> before;
    std::vector<EdgeNumber> behind;
    for (const Word& word : words) {
        bool isNumber = false;
        const int number = word.text.toInt(&isNumber);
        if (!isNumber || number < 1) {
            continue;
        }
        const cv::Point2d at = cellAt(word.box.center());
        const bool isBeside = at.y > 0 && at.y < grid.rows + 0.5;
        // Of its near end, since numbers of more digits reach further out.
        if (at.x > 0 && at.x <= grid.columns + 0.5 && at.y < 0 && at.y > -kReach) {
            above.push_back({-cellAt({word.box.center().x(), word.box.bottom()}).y, at.x, number});
        } else if (at.x > 0 && at.x <= grid.columns + 0.5 && at.y > grid.rows &&
                   at.y < grid.rows + kReach) {
            below.push_back({cellAt({word.box.center().x(), word.box.top()}).y, at.x, number});
        } else if (isBeside && at.x < 0 && at.x > -kReach) {
            before.push_back({-cellAt({word.box.right(), word.box.center().y()}).x, at.y, number});
        } else if (isBeside && at.x > grid.columns && at.x < grid.columns + kReach) {
            behind.push_back({cellAt({word.box.left(), word.box.center().y()}).x, at.y, number});
        }
    }
    Votes columns;
    Votes rows;
    vote(above, columns);
    vote(below, columns);
    vote(before, rows);
    vote(behind, rows);
    const auto weight = [](const std::map<int, int>& votes) {
        const auto said = most(votes);
        return said ? said->second : 0;
    };
    const bool line =
        weight(columns.atLine) + weight(rows.atLine) > weight(columns.atCell) + weight(rows.atCell);
    grid.firstColumn = agreed(line ? columns.atLine : columns.atCell);
    grid.firstRow = agreed(line ? rows.atLine : rows.atCell);
}

} // namespace otherskein::trace::detail
