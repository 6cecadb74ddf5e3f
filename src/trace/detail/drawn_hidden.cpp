#include "trace/detail/drawn_hidden.h"

#include "trace/detail/colours_apart.h"
#include "trace/detail/median_colour.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr double kUnlike = 0.02;   // of what is seen of a cell
constexpr double kLeastSeen = 0.4; // of a cell, to be sure of it
constexpr double kLeastBoth = 0.2; // of a cell, that two of one kind must both show
constexpr double kNewSign = 0.04;  // of what is seen: a sign that no group has
constexpr int kLineColour = 40;    // grey levels by which a line's colour varies
constexpr int kSameColour = 25;    // and where all that has it is taken for a line
constexpr double kOneColour = 0.8; // of a line's length; a dashed or two-coloured one has less
constexpr double kMostReach = 0.3; // of a cell, from a line's middle
constexpr double kRim = 2.0;       // px, half a line's own colour and half another

/// A line on a drawn sheet, px; pixels' middles are whole numbers.
struct Stroke {
    cv::Point2d from;
    cv::Point2d along; ///< of length 1
    cv::Point2d across;
    double length;
};

Stroke strokeOf(const chart::Line& line, int cell) {
    const double half = cell / 2.0;
    const cv::Point2d from(half * line.x1 - 0.5, half * line.y1 - 0.5);
    const cv::Point2d step(half * (line.x2 - line.x1), half * (line.y2 - line.y1));
    const double length = cv::norm(step);
    const cv::Point2d along = step / length;
    return {from, along, {-along.y, along.x}, length};
}

/// The sheet's colours beside the middle of a stroke, `off` px from it.
std::vector<cv::Vec3b> coloursBeside(const cv::Mat& straight, const Stroke& stroke, double off) {
    std::vector<cv::Vec3b> all;
    for (double at = 0.5; at < stroke.length; at += 1) {
        const cv::Point place(stroke.from + at * stroke.along + off * stroke.across);
        if (cv::Rect({0, 0}, straight.size()).contains(place)) {
            all.push_back(straight.at<cv::Vec3b>(place));
        }
    }
    return all;
}

/// Whether nearly all have the line's colour.
bool areOf(const std::vector<cv::Vec3b>& colours, const cv::Vec3b& line) {
    const auto like = std::ranges::count_if(
        colours, [&](const cv::Vec3b& one) { return apart(one, line) <= kLineColour; });
    return !colours.empty() &&
           static_cast<double>(like) >= kOneColour * static_cast<double>(colours.size());
}

/// The colour along a stroke's middle; none where it has not one, as a dashed line.
std::optional<cv::Vec3b> colourOf(const cv::Mat& straight, const Stroke& stroke) {
    const std::vector<cv::Vec3b> along = coloursBeside(straight, stroke, 0);
    const cv::Vec3b middle = medianColourOf(along);
    return areOf(along, middle) ? std::optional(middle) : std::nullopt;
}

/// How far a stroke reaches to one side of its middle, px.
double reachOf(const cv::Mat& straight, const Stroke& stroke, double side, double most,
               const cv::Vec3b& colour) {
    double reach = 0;
    while (reach < most && areOf(coloursBeside(straight, stroke, side * (reach + 0.5)), colour)) {
        reach += 0.5;
    }
    return reach;
}

/// Covers a stroke that reaches so far, its ends round.
void cover(const Stroke& stroke, double before, double after, cv::Mat& mask) {
    constexpr int kShift = 4; // sixteenths of a pixel
    const auto fixed = [](const cv::Point2d& place) { return cv::Point(place * (1 << kShift)); };
    const cv::Point2d to = stroke.from + stroke.length * stroke.along;
    const std::array corners{fixed(stroke.from - before * stroke.across),
                             fixed(to - before * stroke.across), fixed(to + after * stroke.across),
                             fixed(stroke.from + after * stroke.across)};
    cv::fillConvexPoly(mask, corners, cv::Scalar(255), cv::LINE_8, kShift);
    const cv::Point2d aside = (after - before) / 2 * stroke.across;
    for (const cv::Point2d& end : {stroke.from + aside, to + aside}) {
        cv::circle(mask, fixed(end), static_cast<int>((before + after) / 2 * (1 << kShift)),
                   cv::Scalar(255), cv::FILLED, cv::LINE_8, kShift);
    }
}

/// The colours of the lines, each as it is along the middle of one of them.
std::vector<cv::Vec3b> lineColours(const Sheet& drawn, const Backstitch& lines) {
    std::vector<cv::Vec3b> colours;
    for (const chart::Line& line : lines.lines) {
        const auto colour = colourOf(drawn.straight, strokeOf(line, drawn.cell));
        const bool isNew = colour && std::ranges::none_of(colours, [&](const cv::Vec3b& one) {
                               return apart(one, *colour) <= kLineColour;
                           });
        if (isNew) {
            colours.push_back(*colour);
        }
    }
    return colours;
}

/// What is seen of one cell: CV_8U, 255 there.
cv::Mat seenOf(const Sheet& sheet, const cv::Mat& mask, int cell) {
    cv::Mat seen = ~mask(sheet.box(cell % sheet.columns, cell / sheet.columns));
    cv::threshold(seen, seen, 254, 255, cv::THRESH_BINARY);
    return seen;
}

/// Whether nothing reaches in from beyond: within each side its ground runs all along.
bool isClosed(const DrawnCell& cell) {
    constexpr double kSame = 12; // grey levels
    cv::Mat grey;
    cv::cvtColor(cell.picture, grey, cv::COLOR_BGR2GRAY);
    const cv::Rect& inner = cell.inner;
    double ground = 0;
    cv::minMaxLoc(grey(inner), nullptr, &ground);
    const auto isGround = [&](const cv::Rect& strip) {
        double least = 0;
        cv::minMaxLoc(grey(strip), &least);
        return least >= ground - kSame;
    };
    std::array<bool, 4> isFree{};
    for (int k = 0; k < inner.height; ++k) {
        isFree[0] |= k <= inner.y && isGround({inner.x, k, inner.width, 1});
        isFree[1] |= k <= inner.x && isGround({k, inner.y, 1, inner.height});
        const int bottom = grey.rows - 1 - k;
        const int right = grey.cols - 1 - k;
        isFree[2] |= bottom + 1 >= inner.br().y && isGround({inner.x, bottom, inner.width, 1});
        isFree[3] |= right + 1 >= inner.br().x && isGround({right, inner.y, 1, inner.height});
    }
    return std::ranges::all_of(isFree, std::identity());
}

/// A cell under lines that no group is like.
struct Unplaced {
    std::size_t cell;
    cv::Mat seen;
    int nearest; ///< group that it is least unlike
    bool isOwn;  ///< alone it is a symbol too: what sets it apart is no line
};

/// Makes groups of those that are alike by what is seen of both.
void addGroups(std::vector<Unplaced> unplaced, const std::vector<DrawnCell>& cells,
               Groups& groups) {
    struct NewKind {
        DrawnShape shape;
        cv::Mat seen;
        std::vector<const Unplaced*> members;
    };
    std::ranges::stable_sort(unplaced, std::greater{},
                             [](const Unplaced& one) { return cv::countNonZero(one.seen); });
    std::vector<NewKind> kinds;
    for (const Unplaced& one : unplaced) {
        const DrawnCell& cell = cells[one.cell];
        const auto found = std::ranges::find_if(kinds, [&](const NewKind& kind) {
            const cv::Rect box = kind.shape.cell().inner & cell.inner;
            const cv::Mat both = kind.seen & one.seen;
            const int count = cv::countNonZero(both(box));
            return count > kLeastBoth * box.area() &&
                   cv::countNonZero(kind.shape.differences(cell) & both) < kUnlike * count;
        });
        if (found == kinds.end()) {
            kinds.push_back({DrawnShape(cell), one.seen, {&one}});
        } else {
            found->members.push_back(&one);
        }
    }
    for (const NewKind& kind : kinds) {
        const bool isOwn = std::ranges::any_of(kind.members, &Unplaced::isOwn);
        for (const Unplaced* one : kind.members) {
            groups.of[one->cell] = isOwn ? groups.count : one->nearest;
        }
        groups.count += isOwn ? 1 : 0;
    }
}

/// A cell of which too little is seen to tell its group from others.
struct Undecided {
    int cell; ///< of its sheet
    std::vector<int> groups;
};

/// Puts each cell into that of its groups which most cells around it are of. `of` and `masked` are
/// the sheet's.
void placeByNeighbours(const Sheet& sheet, std::span<const Undecided> undecided,
                       std::span<const char> masked, std::span<int> of) {
    constexpr int kAround = 2; // cells to each side
    constexpr int kBeside = 3; // times what a cell farther off counts
    std::vector<int> chosen;
    for (const Undecided& one : undecided) {
        const int column = one.cell % sheet.columns;
        const int row = one.cell / sheet.columns;
        std::map<int, int> votes;
        for (int y = std::max(0, row - kAround); y <= std::min(sheet.rows - 1, row + kAround);
             ++y) {
            for (int x = std::max(0, column - kAround);
                 x <= std::min(sheet.columns - 1, column + kAround); ++x) {
                const auto at = static_cast<std::size_t>(y * sheet.columns + x);
                const bool isBeside = std::abs(x - column) <= 1 && std::abs(y - row) <= 1;
                votes[of[at]] += masked[at] != 0 ? 0 : isBeside ? kBeside : 1;
            }
        }
        int best = of[static_cast<std::size_t>(one.cell)];
        for (const int group : one.groups) {
            best = votes[group] > votes[best] ? group : best;
        }
        chosen.push_back(best);
    }
    for (std::size_t i = 0; i < undecided.size(); ++i) {
        of[static_cast<std::size_t>(undecided[i].cell)] = chosen[i];
    }
}

} // namespace

cv::Mat drawnMaskOf(const Sheet& drawn, const Backstitch& lines) {
    if (lines.lines.empty()) {
        return cv::Mat::zeros(drawn.straight.size(), CV_8U);
    }
    cv::Mat wide;
    cv::resize(lines.mask, wide, drawn.straight.size(), 0, 0, cv::INTER_LINEAR);
    cv::Mat narrow = cv::Mat::zeros(wide.size(), CV_8U);
    for (const chart::Line& line : lines.lines) {
        const Stroke stroke = strokeOf(line, drawn.cell);
        const auto colour = colourOf(drawn.straight, stroke);
        if (!colour) {
            return wide;
        }
        const double most = kMostReach * drawn.cell;
        cover(stroke, kRim + reachOf(drawn.straight, stroke, -1, most, *colour),
              kRim + reachOf(drawn.straight, stroke, 1, most, *colour), narrow);
    }
    // What was found on the page may lie beside it by a pixel there.
    cv::dilate(wide, wide, cv::Mat::ones(5, 5, CV_8U));
    return narrow & wide;
}

void coverStrays(const Sheet& drawn, const Backstitch& lines, cv::Mat& mask,
                 std::span<char> masked) {
    constexpr double kMostInked = 0.02; // of the cells, with the colour in their middle
    constexpr int kMostOwn = 2;
    constexpr double kMiddle = 0.3; // of a cell, from its rim
    const cv::Rect middle(static_cast<int>(kMiddle * drawn.cell),
                          static_cast<int>(kMiddle * drawn.cell),
                          static_cast<int>((1 - 2 * kMiddle) * drawn.cell),
                          static_cast<int>((1 - 2 * kMiddle) * drawn.cell));
    const std::vector<cv::Vec3b> colours = lineColours(drawn, lines);
    std::vector<DrawnCell> inner; // what of each cell the grid's own lines leave
    if (!colours.empty()) {
        inner = drawnCells(std::span(&drawn, 1));
    }
    for (const cv::Vec3b& colour : colours) {
        const cv::Scalar exact(colour);
        cv::Mat like;
        cv::inRange(drawn.straight, exact - cv::Scalar::all(kSameColour),
                    exact + cv::Scalar::all(kSameColour), like);
        int inked = 0;                  // cells, their middle
        int own = 0;                    // that have it within only: signs
        std::vector<std::size_t> cells; // that have it; of some no line was found
        for (std::size_t i = 0; i < masked.size(); ++i) {
            const cv::Mat here = like(drawn.box(static_cast<int>(i) % drawn.columns,
                                                static_cast<int>(i) / drawn.columns));
            if (cv::countNonZero(here(inner[i].inner)) == 0) {
                continue;
            }
            cells.push_back(i);
            if (masked[i] == 0) {
                inked += cv::countNonZero(here(middle)) > 0 ? 1 : 0;
                own += comesFromBeyond(here, inner[i].inner) ? 0 : 1;
            }
        }
        if (own > kMostOwn ||
            inked > std::max(3.0, kMostInked * static_cast<double>(masked.size()))) {
            continue; // symbols have it too
        }
        cv::dilate(like, like, cv::Mat::ones(5, 5, CV_8U)); // a line's rim
        for (const std::size_t i : cells) {
            const cv::Rect box =
                drawn.box(static_cast<int>(i) % drawn.columns, static_cast<int>(i) / drawn.columns);
            mask(box) |= like(box);
            masked[i] = 1;
        }
    }
}

void placeHidden(std::span<const Sheet> sheets, const std::vector<DrawnCell>& cells,
                 const std::vector<char>& masked, std::span<const cv::Mat> masks,
                 const DrawnKinds& kinds, const std::set<int>& marked, Groups& groups) {
    const auto isOfItself = [&](int group) { return !marked.contains(group); };
    const std::vector<std::size_t> sizes = kinds.sizes();
    std::vector<Unplaced> unplaced;
    std::size_t first = 0;
    for (std::size_t p = 0; p < sheets.size(); ++p) {
        const Sheet& sheet = sheets[p];
        const auto count = static_cast<std::size_t>(sheet.columns * sheet.rows);
        std::vector<Undecided> undecided;
        for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
            const std::size_t at = first + static_cast<std::size_t>(i);
            if (masked.empty() || masked[at] == 0) {
                continue;
            }
            // A line along its sides may leave all of a cell as it is.
            const DrawnCell& cell = cells[at];
            const std::optional<std::size_t> whole = kinds.shapeOf(cell);
            if (whole && sizes[static_cast<std::size_t>(kinds.of[*whole])] > kFewCells) {
                groups.of[at] = kinds.of[*whole];
                continue;
            }
            const cv::Mat seen = seenOf(sheet, masks[p], i);
            NearestGroup near = nearestOf(cell, seen, kinds, isOfItself);
            if (near.off >= kUnlike && !marked.empty()) {
                near = nearestOf(cell, seen, kinds, [](int) { return true; });
            }
            groups.of[at] = std::max(0, near.group);
            const double share =
                static_cast<double>(cv::countNonZero(seen(cell.inner))) / cell.inner.area();
            const bool isTold = near.isExact || near.second > 3 * near.off + kTold;
            const bool isSure = near.off < kUnlike && isTold && share > kLeastSeen;
            groups.confidence[at] = isSure ? 1 : kUnsureDrawn;
            if (!isSure && !near.isExact && near.off < kUnlike) {
                undecided.push_back({i, near.asNear});
            }
            if (near.off > kNewSign) {
                bool isOwn = near.off > kMostLine || isClosed(cell);
                for (std::size_t s = 0; s < kinds.shapes.size() && !isOwn; ++s) {
                    isOwn = kinds.of[s] == near.group &&
                            !comesFromBeyond(kinds.shapes[s].differences(cell) & seen, cell.inner);
                }
                unplaced.push_back({at, seen, groups.of[at], isOwn});
            }
        }
        if (!undecided.empty()) {
            placeByNeighbours(sheet, undecided, std::span(masked).subspan(first, count),
                              std::span(groups.of).subspan(first, count));
        }
        first += count;
    }
    addGroups(std::move(unplaced), cells, groups);
}

} // namespace otherskein::trace::detail
