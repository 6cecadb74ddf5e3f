#include "trace/detail/unprinted_marks.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kAtLines = 0.8;   // of the cells of a line's rest lie at a line
constexpr int kBarDepth = 6;       // places from the side, with a line's blurred edge
constexpr float kBarAll = 0.6F;    // of its darkest place, and it is dark all along
constexpr float kBarRest = 0.22F;  // of the bar: what there is beside it
constexpr float kLeastBar = 20;    // grey levels
constexpr float kSoftLeast = 10;   // grey levels that a stain differs by within a cell
constexpr float kSoft = 0.45F;     // of the usual steepness of marks
constexpr float kSoftest = 0.17F;  // of what a mark differs: so little a place is never print
constexpr int kFewMarks = 3;       // cells; groups of fewer do not say what is usual
constexpr double kMostSoft = 0.01; // of all cells: what more have is meant
constexpr double kOneLine = 0.75;  // of the cells of a fold, or of a shade at a page's edge
constexpr float kShadeDark = 60;   // grey levels: the darkest of those
constexpr float kFoldDark = 110;   // and of what runs through all its cells as a fold does
constexpr float kShadeTint = 12;
constexpr float kStripe = 0.3F;    // of a stripe's darkness: how it may differ along itself
constexpr float kPale = 0.3F;      // of the usual contrast to paper
constexpr float kPaleMark = 0.45F; // and where it is a mark on paper
constexpr double kMostPale = 0.05; // of all cells: what more have is meant
constexpr float kUnsureMark = 0.4F;

float lightAt(const cv::Mat& look, int x, int y) {
    return look.at<float>(0, y * kLookSide + x);
}

void beUnsureOf(Groups& groups, std::size_t group) {
    for (std::size_t i = 0; i < groups.of.size(); ++i) {
        if (groups.of[i] == static_cast<int>(group)) {
            groups.confidence[i] = std::min(groups.confidence[i], kUnsureMark);
        }
    }
}

/// Is what a look has beyond paper a bar all along one side?
bool isBar(const cv::Mat& look, const cv::Mat& paper) {
    const auto darkAt = [&](int side, int along, int depth) {
        const int far = kLookSide - 1 - depth;
        const int x = side == 0 ? far : side == 2 ? depth : along;
        const int y = side == 1 ? far : side == 3 ? depth : along;
        return lightAt(paper, x, y) - lightAt(look, x, y);
    };
    for (int side = 0; side < 4; ++side) {
        float darkest = 0;
        float palest = 1e6F;
        float beside = 0;
        for (int along = 1; along + 1 < kLookSide; ++along) {
            float bar = 0;
            for (int depth = 0; depth < kLookSide; ++depth) {
                const float dark = darkAt(side, along, depth);
                (depth < kBarDepth ? bar : beside) =
                    std::max(depth < kBarDepth ? bar : beside, std::abs(dark));
            }
            darkest = std::max(darkest, bar);
            palest = std::min(palest, bar);
        }
        if (darkest > kLeastBar && palest > kBarAll * darkest && beside < kBarRest * darkest) {
            return true;
        }
    }
    return false;
}

/// The steepest step within a look, and how much it differs within.
struct Edge {
    float steepest = 0;
    float range = 0;
};

Edge edgeOf(const cv::Mat& look) {
    Edge edge;
    float least = 1e6F;
    float most = -1e6F;
    // Without the rim, where grid lines leave something.
    for (int y = 2; y + 3 < kLookSide; ++y) {
        for (int x = 2; x + 3 < kLookSide; ++x) {
            const float one = lightAt(look, x, y);
            edge.steepest = std::max({edge.steepest, std::abs(lightAt(look, x + 1, y) - one),
                                      std::abs(lightAt(look, x, y + 1) - one)});
            least = std::min(least, one);
            most = std::max(most, one);
        }
    }
    edge.range = most - least;
    return edge;
}

/// The largest group that is bare.
std::optional<std::size_t> paperOfAll(std::span<const GroupLook> groupLooks) {
    std::optional<std::size_t> paper;
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        if (groupLooks[g].isBare && (!paper || groupLooks[g].cells > groupLooks[*paper].cells)) {
            paper = g;
        }
    }
    return paper;
}

/// How much darker than paper a look is where it is darkest and where it is lightest, without the
/// rim.
struct Contrast {
    float most = -1e6F;
    float least = 1e6F;
};

Contrast contrastOf(const cv::Mat& look, const cv::Mat& paper) {
    Contrast contrast;
    for (int y = 2; y + 2 < kLookSide; ++y) {
        for (int x = 2; x + 2 < kLookSide; ++x) {
            const float dark = lightAt(paper, x, y) - lightAt(look, x, y);
            contrast.most = std::max(contrast.most, dark);
            contrast.least = std::min(contrast.least, dark);
        }
    }
    return contrast;
}

/// The most cells of each group in one row or two beside each other, since folds lean, and in
/// columns.
struct InOneLine {
    std::vector<int> row;
    std::vector<int> column;
};

InOneLine inOneLine(const Groups& groups, std::span<const LookGrid> grids) {
    const auto size = static_cast<std::size_t>(groups.count);
    InOneLine most{std::vector<int>(size, 0), std::vector<int>(size, 0)};
    std::vector<int> last;
    const auto count = [&](int first, int step, int length, std::vector<int>& out) {
        std::vector<int> here(size, 0);
        for (int i = 0; i < length; ++i) {
            ++here[static_cast<std::size_t>(groups.of[static_cast<std::size_t>(first + i * step)])];
        }
        for (std::size_t g = 0; g < size; ++g) {
            out[g] = std::max(out[g], here[g] + last[g]);
        }
        last = std::move(here);
    };
    for (const LookGrid& grid : grids) {
        last.assign(size, 0);
        for (int row = 0; row < grid.rows; ++row) {
            count(grid.first + row * grid.columns, 1, grid.columns, most.row);
        }
        last.assign(size, 0);
        for (int column = 0; column < grid.columns; ++column) {
            count(grid.first + column, grid.columns, grid.rows, most.column);
        }
    }
    return most;
}

/// Is a look paper but for some grey, so dark at most?
bool isPale(const cv::Mat& look, const cv::Mat& paper, float dark) {
    for (int i = 0; i < kLookSize; ++i) {
        const bool isTint = i >= kLookSide * kLookSide;
        if (std::abs(look.at<float>(0, i) - paper.at<float>(0, i)) > (isTint ? kShadeTint : dark)) {
            return false;
        }
    }
    return true;
}

/// Does all that a look has run through it, from side to side or from top to bottom?
bool isStripe(const cv::Mat& look, bool isAcross) {
    float along = 0;
    float least = 1e6F;
    float most = -1e6F;
    for (int at = 2; at + 2 < kLookSide; ++at) {
        float low = 1e6F;
        float high = -1e6F;
        for (int k = 2; k + 2 < kLookSide; ++k) {
            const float one = isAcross ? lightAt(look, k, at) : lightAt(look, at, k);
            low = std::min(low, one);
            high = std::max(high, one);
        }
        along = std::max(along, high - low);
        least = std::min(least, low);
        most = std::max(most, high);
    }
    return most - least > kSoftLeast && along < kStripe * (most - least);
}

/// Has a look nothing in its middle, but something around?
bool isAtSides(const cv::Mat& look, const cv::Mat& paper) {
    float middle = 0;
    float around = 0;
    for (int y = 0; y < kLookSide; ++y) {
        for (int x = 0; x < kLookSide; ++x) {
            const int far = std::min({x, y, kLookSide - 1 - x, kLookSide - 1 - y});
            float& most = far < kBarDepth ? around : middle;
            most = std::max(most, std::abs(lightAt(paper, x, y) - lightAt(look, x, y)));
        }
    }
    return around > kLeastBar && middle < kBarRest * around;
}

/// Cells of each group in the first or last row or column, whichever has most of them.
std::vector<int> cellsAtRim(const Groups& groups, std::span<const LookGrid> grids) {
    std::vector<std::array<int, 4>> counts(static_cast<std::size_t>(groups.count));
    for (const LookGrid& grid : grids) {
        for (int i = 0; i < grid.columns * grid.rows; ++i) {
            auto& rims = counts[static_cast<std::size_t>(
                groups.of[static_cast<std::size_t>(grid.first + i)])];
            const int row = i / grid.columns;
            const int column = i % grid.columns;
            rims[0] += row == 0 ? 1 : 0;
            rims[1] += row == grid.rows - 1 ? 1 : 0;
            rims[2] += column == 0 ? 1 : 0;
            rims[3] += column == grid.columns - 1 ? 1 : 0;
        }
    }
    std::vector<int> most;
    for (const auto& rims : counts) {
        most.push_back(std::ranges::max(rims));
    }
    return most;
}

} // namespace

void markLineRests(const std::vector<char>& masked, Groups& groups,
                   std::vector<GroupLook>& groupLooks) {
    const std::optional<std::size_t> paper = paperOfAll(groupLooks);
    if (!paper) {
        return;
    }
    std::vector<int> atLines(groupLooks.size(), 0);
    for (std::size_t i = 0; i < masked.size(); ++i) {
        atLines[static_cast<std::size_t>(groups.of[i])] += masked[i] != 0 ? 1 : 0;
    }
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        GroupLook& one = groupLooks[g];
        if (!one.isBare && one.cells > 0 && atLines[g] > kAtLines * one.cells &&
            isBar(one.mean, groupLooks[*paper].mean)) {
            one.isBare = true;
            beUnsureOf(groups, g);
        }
    }
}

void doubtFrameRests(std::span<const LookGrid> grids, Groups& groups,
                     std::span<const GroupLook> groupLooks) {
    const std::optional<std::size_t> paper = paperOfAll(groupLooks);
    if (!paper) {
        return;
    }
    const std::vector<int> atRim = cellsAtRim(groups, grids);
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        const GroupLook& one = groupLooks[g];
        if (!one.isBare && one.cells > 0 && atRim[g] == one.cells &&
            isAtSides(one.mean, groupLooks[*paper].mean)) {
            beUnsureOf(groups, g);
        }
    }
}

void markFolds(std::span<const LookGrid> grids, Groups& groups,
               std::vector<GroupLook>& groupLooks) {
    const std::optional<std::size_t> paper = paperOfAll(groupLooks);
    if (!paper) {
        return;
    }
    const InOneLine most = inOneLine(groups, grids);
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        GroupLook& one = groupLooks[g];
        const double least = kOneLine * one.cells;
        const bool isInRow = most.row[g] >= least;
        if (one.isBare || one.cells < kFewMarks || (!isInRow && most.column[g] < least)) {
            continue;
        }
        const cv::Mat& white = groupLooks[*paper].mean;
        const bool isThrough = isStripe(one.mean, isInRow);
        if (isPale(one.mean, white, kShadeDark)) {
            one.isBare = isThrough;
            beUnsureOf(groups, g);
        } else if (isThrough && isPale(one.mean, white, kFoldDark)) {
            beUnsureOf(groups, g); // a dash may look like that
        }
    }
}

void doubtSoftMarks(Groups& groups, std::span<const GroupLook> groupLooks) {
    std::vector<float> steep;
    for (const GroupLook& one : groupLooks) {
        if (const Edge edge = edgeOf(one.mean);
            !one.isBare && one.cells >= kFewMarks && edge.range > kSoftLeast) {
            steep.push_back(edge.steepest / edge.range);
        }
    }
    const float usual = steep.empty() ? 0 : medianOf(steep);
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        const Edge edge = edgeOf(groupLooks[g].mean);
        const bool isRare = groupLooks[g].cells < kMostSoft * static_cast<double>(groups.of.size());
        if (!groupLooks[g].isBare && isRare && edge.range > kSoftLeast &&
            edge.steepest < std::max(kSoft * usual, kSoftest) * edge.range) {
            beUnsureOf(groups, g);
        }
    }
}

void doubtPaleMarks(Groups& groups, std::span<const GroupLook> groupLooks) {
    const std::optional<std::size_t> paper = paperOfAll(groupLooks);
    if (!paper) {
        return;
    }
    std::vector<Contrast> contrasts;
    std::vector<float> all; // of each stitched cell
    for (const GroupLook& one : groupLooks) {
        contrasts.push_back(contrastOf(one.mean, groupLooks[*paper].mean));
        const int cells = one.isBare ? 0 : one.cells;
        all.insert(all.end(), static_cast<std::size_t>(cells), contrasts.back().most);
    }
    const float usual = all.empty() ? 0 : medianOf(all);
    std::vector<std::size_t> pale;
    int cells = 0;
    for (std::size_t g = 0; g < groupLooks.size(); ++g) {
        const Contrast& one = contrasts[g];
        const bool isOnPaper = one.least < kStripe * one.most;
        if (!groupLooks[g].isBare && one.most < (isOnPaper ? kPaleMark : kPale) * usual) {
            pale.push_back(g);
            cells += groupLooks[g].cells;
        }
    }
    if (cells < kMostPale * static_cast<double>(groups.of.size())) {
        std::ranges::for_each(pale, [&](std::size_t g) { beUnsureOf(groups, g); });
    }
}

} // namespace otherskein::trace::detail
