#include "trace/detail/drawn_groups.h"

#include "trace/detail/drawn_hidden.h"
#include "trace/detail/drawn_marks.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <string>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostShapes = 700;
constexpr double kMostFew = 0.1;   // of the cells, that may be of such groups
constexpr double kSameShape = 0.3; // of the contrast at a place, that shapes differ by
constexpr double kAsAlike = 0.05;
constexpr double kRounded = 0.6; // and where they may be rounded differently
constexpr double kMuchRounded = 0.4;
constexpr double kMostRounded = 0.8; // and where columns or rows of both kinds take turns
constexpr int kTurns = 6;
constexpr std::size_t kFewPlaces = 4; // columns or rows: two symbols lie apart in so few by chance

/// Cells with exactly the same pixels, most first: indices of cells.
std::vector<std::vector<int>> exactKinds(const std::vector<DrawnCell>& cells,
                                         const std::vector<char>& masked) {
    std::map<std::string, std::vector<int>> kinds;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (!masked.empty() && masked[i] != 0) {
            continue;
        }
        const cv::Rect& inner = cells[i].inner;
        std::string pixels;
        for (const int one : {inner.x, inner.y, inner.width, inner.height}) {
            pixels.push_back(static_cast<char>(one));
        }
        for (int y = inner.y; y < inner.br().y; ++y) {
            const auto* row = cells[i].picture.ptr<char>(y) + 3 * inner.x;
            pixels.append(row, 3 * static_cast<std::size_t>(inner.width));
        }
        kinds[std::move(pixels)].push_back(static_cast<int>(i));
    }
    std::vector<std::vector<int>> result;
    for (auto& [pixels, members] : kinds) {
        result.push_back(std::move(members));
    }
    // Those that lines leave most of first: the others are compared with them.
    std::ranges::stable_sort(result, [&](const auto& one, const auto& other) {
        return std::pair(cells[static_cast<std::size_t>(one[0])].inner.area(), one.size()) >
               std::pair(cells[static_cast<std::size_t>(other[0])].inner.area(), other.size());
    });
    return result;
}

bool joinShapes(const std::vector<DrawnCell>& cells, const std::vector<std::vector<int>>& exact,
                DrawnKinds& kinds) {
    for (const std::vector<int>& members : exact) {
        const DrawnCell& cell = cells[static_cast<std::size_t>(members[0])];
        std::optional<std::size_t> found = kinds.shapeOf(cell);
        if (!found) {
            if (kinds.shapes.size() == kMostShapes) {
                return false;
            }
            found = kinds.shapes.size();
            kinds.shapes.emplace_back(cell);
            kinds.members.emplace_back();
        }
        kinds.members[*found].insert(kinds.members[*found].end(), members.begin(), members.end());
    }
    return true;
}

/// The columns and rows of each shape's cells, each sheet's by themselves.
struct Places {
    std::set<int> columns;
    std::set<int> rows;
};

bool areApart(const std::set<int>& one, const std::set<int>& other) {
    return std::ranges::none_of(one, [&](int place) { return other.contains(place); });
}

/// How often places of one kind and the other take turns: seldom where a chart has one symbol in
/// one part and another in the next.
int turnsOf(const std::set<int>& one, const std::set<int>& other) {
    std::vector<std::pair<int, bool>> all;
    for (const int place : one) {
        all.emplace_back(place, true);
    }
    for (const int place : other) {
        all.emplace_back(place, false);
    }
    std::ranges::sort(all);
    int turns = 0;
    for (std::size_t i = 1; i < all.size(); ++i) {
        turns += all[i].second != all[i - 1].second ? 1 : 0;
    }
    return turns;
}

/// Whether two may be one shape, rounded one way in some columns or rows and another in others. Few
/// cells lie apart anyway.
bool areRounded(const Places& one, const Places& other, double unlikeness) {
    const std::size_t few = unlikeness > kMuchRounded ? kFewPlaces : kFewCells;
    const int turns = unlikeness > kRounded ? kTurns : 0;
    const auto may = [&](const std::set<int>& mine, const std::set<int>& its) {
        return std::min(mine.size(), its.size()) > few && areApart(mine, its) &&
               turnsOf(mine, its) >= turns;
    };
    return may(one.columns, other.columns) || may(one.rows, other.rows);
}

std::vector<Places> placesOf(std::span<const Sheet> sheets, const DrawnKinds& kinds) {
    std::vector<std::pair<int, int>> at;
    int sheetsColumn = 0;
    int sheetsRow = 0;
    for (const Sheet& sheet : sheets) {
        for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
            at.emplace_back(sheetsColumn + i % sheet.columns, sheetsRow + i / sheet.columns);
        }
        sheetsColumn += sheet.columns;
        sheetsRow += sheet.rows;
    }
    std::vector<Places> result(kinds.shapes.size());
    for (std::size_t s = 0; s < kinds.shapes.size(); ++s) {
        for (const int i : kinds.members[s]) {
            result[s].columns.insert(at[static_cast<std::size_t>(i)].first);
            result[s].rows.insert(at[static_cast<std::size_t>(i)].second);
        }
    }
    return result;
}

/// Whether others of both groups, of which more is seen than of these two, are not alike.
bool isToldApart(const DrawnKinds& kinds, const cv::Mat& unlike, std::size_t one,
                 std::size_t other) {
    const auto seen = [&](std::size_t a, std::size_t b) {
        return (kinds.shapes[a].cell().inner & kinds.shapes[b].cell().inner).area();
    };
    const double least = 1.1 * seen(one, other);
    for (std::size_t a = 0; a < kinds.shapes.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            const bool isOne = (kinds.of[a] == kinds.of[one] && kinds.of[b] == kinds.of[other]) ||
                               (kinds.of[a] == kinds.of[other] && kinds.of[b] == kinds.of[one]);
            if (isOne && seen(a, b) > least &&
                static_cast<double>(unlike.at<float>(static_cast<int>(a), static_cast<int>(b))) >
                    kRounded) {
                return true;
            }
        }
    }
    return false;
}

/// Joins shapes that are one, the most alike first. A renderer that rounds a shape's sides to whole
/// pixels makes several of it, each in columns or in rows of its own.
void joinNearShapes(std::span<const Sheet> sheets, DrawnKinds& kinds) {
    struct Pair {
        double unlikeness;
        std::size_t one;
        std::size_t other;
    };
    std::vector<Pair> pairs;
    cv::Mat unlike(static_cast<int>(kinds.shapes.size()), static_cast<int>(kinds.shapes.size()),
                   CV_32F, cv::Scalar(1));
    for (std::size_t a = 0; a < kinds.shapes.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            if (kinds.shapes[a].mayBe(kinds.shapes[b].cell(), kinds.shapes[b].sums())) {
                const double one = kinds.shapes[a].unlikeness(kinds.shapes[b]);
                unlike.at<float>(static_cast<int>(a), static_cast<int>(b)) =
                    static_cast<float>(one);
                if (one <= kMostRounded) {
                    pairs.push_back({one, b, a});
                }
            }
        }
    }
    // Of what is as alike, the many first: few cells may have a rest of a line that was missed.
    std::ranges::sort(pairs, {}, [&](const Pair& pair) {
        const auto most = kinds.members[pair.one].size() + kinds.members[pair.other].size();
        return std::tuple(std::floor(pair.unlikeness / kAsAlike), -static_cast<double>(most),
                          pair.unlikeness);
    });
    std::vector<Places> places = placesOf(sheets, kinds);
    kinds.of.resize(kinds.shapes.size());
    std::iota(kinds.of.begin(), kinds.of.end(), 0);
    for (const Pair& pair : pairs) {
        const int one = kinds.of[pair.one];
        const int other = kinds.of[pair.other];
        Places& at = places[static_cast<std::size_t>(one)];
        Places& there = places[static_cast<std::size_t>(other)];
        if (one == other ||
            (pair.unlikeness > kSameShape && !areRounded(at, there, pair.unlikeness)) ||
            isToldApart(kinds, unlike, pair.one, pair.other)) {
            continue;
        }
        std::ranges::replace(kinds.of, other, one);
        at.columns.merge(there.columns);
        at.rows.merge(there.rows);
    }
    // Numbers without gaps.
    std::map<int, int> numberOf;
    for (int& one : kinds.of) {
        one = numberOf.try_emplace(one, static_cast<int>(numberOf.size())).first->second;
    }
}

/// Few cells that are as a larger group's but for marks that come in from beyond.
struct FewCells {
    std::size_t shape;
    int group;
    cv::Mat marks;
};

std::optional<FewCells> marksOf(const DrawnKinds& kinds, std::size_t shape,
                                const std::function<bool(int group)>& isMany) {
    const DrawnCell& cell = kinds.shapes[shape].cell();
    const cv::Mat all(cell.picture.size(), CV_8U, cv::Scalar(255));
    const NearestGroup near = nearestOf(cell, all, kinds, isMany);
    std::optional<FewCells> result;
    int fewest = 0;
    for (std::size_t o = 0; near.off < kMostLine && o < kinds.shapes.size(); ++o) {
        if (kinds.of[o] != near.group) {
            continue;
        }
        cv::Mat marks = kinds.shapes[o].differences(cell);
        const int count = cv::countNonZero(marks);
        if (comesFromBeyond(marks, cell.inner) && (!result || count < fewest)) {
            result = {shape, near.group, std::move(marks)};
            fewest = count;
        }
    }
    return result;
}

/// Puts cells into the larger groups where their marks are none of their own; they stay doubtful.
void joinMarked(std::span<const Sheet> sheets, const DrawnKinds& kinds,
                std::span<const FewCells> few, Groups& groups) {
    int first = 0;
    for (const Sheet& sheet : sheets) {
        std::map<int, MarkedCell> marked;
        std::map<int, int> groupOf;
        for (const FewCells& one : few) {
            for (const int i : kinds.members[one.shape]) {
                if (i >= first && i < first + sheet.columns * sheet.rows) {
                    marked[i - first] = {one.marks, kinds.shapes[one.shape].cell().inner};
                    groupOf[i - first] = one.group;
                }
            }
        }
        for (const auto& [cell, group] : groupOf) {
            if (areMarksFromBeyond(sheet, cell, marked)) {
                groups.of[static_cast<std::size_t>(first + cell)] = group;
            }
        }
        first += sheet.columns * sheet.rows;
    }
}

} // namespace

std::optional<DrawnGroups> drawnGroupsOf(std::span<const Sheet> sheets,
                                         const std::vector<char>& masked,
                                         std::span<const cv::Mat> masks) {
    const std::vector<DrawnCell> cells = drawnCells(sheets);
    DrawnKinds kinds;
    if (!joinShapes(cells, exactKinds(cells, masked), kinds)) {
        return std::nullopt;
    }
    joinNearShapes(sheets, kinds);
    const std::vector<std::size_t> sizes = kinds.sizes();
    DrawnGroups result;
    Groups& groups = result.groups;
    groups.of.assign(cells.size(), 0);
    groups.confidence.assign(cells.size(), 1);
    std::size_t few = 0;
    std::vector<FewCells> marked;
    const auto isMany = [&](int group) {
        return sizes[static_cast<std::size_t>(group)] > kFewCells;
    };
    for (std::size_t s = 0; s < kinds.shapes.size(); ++s) {
        const int group = kinds.of[s];
        float sure = 1;
        if (!isMany(group)) {
            few += kinds.members[s].size();
            if (auto marks = marksOf(kinds, s, isMany)) {
                marked.push_back(std::move(*marks));
                sure = kUnsureDrawn;
            }
        }
        for (const int i : kinds.members[s]) {
            groups.of[static_cast<std::size_t>(i)] = group;
            groups.confidence[static_cast<std::size_t>(i)] = sure;
        }
    }
    if (static_cast<double>(few) > std::max(8.0, kMostFew * static_cast<double>(cells.size()))) {
        return std::nullopt;
    }
    groups.count = kinds.of.empty() ? 0 : 1 + *std::ranges::max_element(kinds.of);
    joinMarked(sheets, kinds, marked, groups);
    std::set<int> ofMarked;
    for (const FewCells& one : marked) {
        ofMarked.insert(kinds.of[one.shape]);
    }
    placeHidden(sheets, cells, masked, masks, kinds, ofMarked, groups);
    result.isPaper.assign(static_cast<std::size_t>(groups.count), 0);
    result.isPlain.assign(static_cast<std::size_t>(groups.count), 0);
    result.isSquare.assign(static_cast<std::size_t>(groups.count), 0);
    for (std::size_t s = 0; s < kinds.shapes.size(); ++s) {
        if (kinds.shapes[s].isPlain()) {
            result.isPlain[static_cast<std::size_t>(kinds.of[s])] = 1;
        }
        if (kinds.shapes[s].isSquare()) {
            result.isSquare[static_cast<std::size_t>(kinds.of[s])] = 1;
        }
        if (kinds.shapes[s].isPaper()) {
            result.isPaper[static_cast<std::size_t>(kinds.of[s])] = 1;
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
