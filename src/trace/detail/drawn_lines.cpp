#include "trace/detail/drawn_lines.h"

#include "trace/detail/drawn_sides.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

namespace otherskein::trace::detail {

namespace {

constexpr double kSameColour = 30;  // grey levels
constexpr double kSameThread = 60;  // as it is on the page, where lines are blurred
constexpr float kSameWidth = 0.1F;  // share
constexpr float kFromPaper = 150;   // grey levels of a channel that a line differs from paper
constexpr double kFewOthers = 0.05; // share beside a look, up to which it is along all of a line
constexpr float kBroader = 1.3F;    // times what thread lies over, at least
constexpr int kGroundStep = 16;     // grey levels
constexpr int kFewOnGround = 20;    // sides
constexpr int kGridLines = 3;       // at even steps
constexpr double kMostBoxed = 0.4;  // of a look's sides, around cells that have it all around
constexpr float kMostOfLine = 0.8F; // px by which thread is broader than what it lies over
constexpr int kLeastSides = 8;
constexpr std::size_t kFewLines = 2; // one alone may be part of a frame
constexpr int kFewSides = 3;         // of a look that sloped lines have too
constexpr double kSlimmest = 0.075;  // of a cell; slimmer ones are mixed with what they lie on
constexpr float kOfGrid = 1.6F; // times a grid's line, up to which one of its colour is its own

/// A side with something along it.
struct Place {
    bool isUpright = false;
    int line = 0;
    int place = 0;

    auto operator<=>(const Place&) const = default;
};

/// All sides of one look.
struct SideKind {
    cv::Vec3b colour;
    float width = 0; ///< px
    std::vector<Place> places;
};

bool isLike(const SideLook& look, const SideKind& kind) {
    return cv::norm(look.colour, kind.colour, cv::NORM_INF) <= kSameColour &&
           std::abs(look.width - kind.width) <= std::max(0.6F, kSameWidth * kind.width);
}

/// The sides of a drawn sheet, both ways.
struct Sides {
    DrawnSides level;
    DrawnSides upright;

    [[nodiscard]] const DrawnSides& way(bool isUpright) const {
        return isUpright ? upright : level;
    }
    [[nodiscard]] const SideLook& at(const Place& one) const {
        return way(one.isUpright).at(one.line, one.place);
    }
};

std::vector<SideKind> kindsOf(const Sides& sides) {
    std::vector<SideKind> kinds;
    for (const bool isUpright : {false, true}) {
        const DrawnSides& way = sides.way(isUpright);
        for (int line = 1; line + 1 < way.lines; ++line) {
            for (int place = 0; place < way.along; ++place) {
                const SideLook& look = way.at(line, place);
                if (!look.isLine()) {
                    continue;
                }
                auto kind = std::ranges::find_if(
                    kinds, [&](const SideKind& one) { return isLike(look, one); });
                if (kind == kinds.end()) {
                    kind = kinds.insert(kinds.end(), {look.colour, look.width, {}});
                }
                kind->places.push_back({isUpright, line, place});
            }
        }
    }
    return kinds;
}

/// What a line has beside the sides of one look.
struct Beside {
    int like = 0;
    int others = 0;  ///< that can be told
    float width = 0; ///< px, of most of these

    [[nodiscard]] bool isWhole() const { return others <= kFewOthers * like; }
    [[nodiscard]] bool isMost() const { return like > others; }
};

Beside besideOf(const DrawnSides& way, int line, const SideKind& kind) {
    Beside result;
    std::vector<float> widths;
    for (int place = 0; place < way.along; ++place) {
        const SideLook& look = way.at(line, place);
        if (look.isLine() && isLike(look, kind)) {
            ++result.like;
        } else if (!look.isUntold) {
            widths.push_back(look.width);
        }
    }
    result.others = static_cast<int>(widths.size());
    result.width = widths.empty() ? 0 : medianOf(std::move(widths));
    return result;
}

/// Whether lines are what a grid has of itself: one in its middle, or all at even steps.
bool isRegular(const std::vector<int>& lines, int last) {
    if (lines.size() < 2) {
        return true;
    }
    int step = 0;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        step = std::gcd(step, lines[i] - lines[i - 1]);
    }
    // A few may be missing, where thread lies over them.
    const int all = (last - 1 - lines.front() % step) / step + (lines.front() % step > 0 ? 1 : 0);
    return static_cast<double>(lines.size()) > 0.75 * all;
}

/// The share of a look's sides that lie at cells which have it all around: a symbol's frame, or
/// that of a filled square.
double boxedShare(const std::vector<Place>& places) {
    const std::set<Place> all(places.begin(), places.end());
    const auto isBoxed = [&](int column, int row) {
        return all.contains({true, column, row}) && all.contains({true, column + 1, row}) &&
               all.contains({false, row, column}) && all.contains({false, row + 1, column});
    };
    const auto boxed = std::ranges::count_if(places, [&](const Place& one) {
        return one.isUpright ? isBoxed(one.line, one.place) || isBoxed(one.line - 1, one.place)
                             : isBoxed(one.place, one.line) || isBoxed(one.place, one.line - 1);
    });
    return places.empty() ? 0 : static_cast<double>(boxed) / static_cast<double>(places.size());
}

/// Whether most sides between cells of one ground have a look: then it is the grid's own there.
bool isUsualOnGround(const Sides& sides, const SideKind& kind) {
    struct Count {
        int like = 0;
        int all = 0;
    };
    std::map<std::array<int, 3>, Count> byGround;
    for (const DrawnSides* way : {&sides.level, &sides.upright}) {
        for (const SideLook& look : way->sides) {
            if (look.isBetweenLike && !look.isUntold) {
                Count& count = byGround[{look.ground[0] / kGroundStep, look.ground[1] / kGroundStep,
                                         look.ground[2] / kGroundStep}];
                ++count.all;
                count.like += look.isLine() && isLike(look, kind) ? 1 : 0;
            }
        }
    }
    return std::ranges::any_of(byGround, [&](const auto& one) {
        return one.second.all >= kFewOnGround && 2 * one.second.like > one.second.all;
    });
}

/// Those sides of a look that have thread: all where some can be nothing else, but for lines at the
/// grid's own steps.
std::vector<Place> threadOf(const Sides& sides, const SideKind& kind, bool isKnown) {
    const float fromPaper =
        255 - static_cast<float>(std::min({kind.colour[0], kind.colour[1], kind.colour[2]}));
    if (fromPaper < kFromPaper) {
        return {};
    }
    std::set<std::pair<bool, int>> lines; // that have thread, if there is any
    std::set<std::pair<bool, int>> sure;  // since what else lies along them is slimmer
    bool isGrids = false;
    for (const bool isUpright : {false, true}) {
        const DrawnSides& way = sides.way(isUpright);
        std::vector<int> most;
        std::vector<int> whole;
        for (int line = 1; line + 1 < way.lines; ++line) {
            const Beside beside = besideOf(way, line, kind);
            if (beside.like == 0) {
                continue;
            }
            if (beside.isMost()) {
                most.push_back(line);
            }
            if (beside.isWhole()) {
                whole.push_back(line);
            } else if (kind.width > kBroader * beside.width + kMostOfLine) {
                sure.insert({isUpright, line});
            }
        }
        if (static_cast<int>(most.size()) >= kGridLines && isRegular(most, way.lines - 1)) {
            isGrids = true;
            for (const int line : most) {
                sure.erase({isUpright, line});
            }
        } else if (!isRegular(whole, way.lines - 1)) {
            for (const int line : whole) {
                lines.insert({isUpright, line});
            }
        }
    }
    lines.insert(sure.begin(), sure.end());
    std::vector<Place> result;
    int proven = 0;
    for (const Place& one : kind.places) {
        if (lines.contains({one.isUpright, one.line})) {
            result.push_back(one);
            proven += sure.contains({one.isUpright, one.line}) ? 1 : 0;
        }
    }
    const bool isThread =
        !isGrids && sure.size() >= kFewLines && proven >= (isKnown ? kFewSides : kLeastSides);
    const auto all = sides.level.sides.size() + sides.upright.sides.size();
    if (!isThread || boxedShare(result) > kMostBoxed || result.size() > all / 3 ||
        isUsualOnGround(sides, kind)) {
        return {};
    }
    return result;
}

/// Whether a look is one of the grid's own, on another ground.
bool isOfGrid(const SideKind& kind, const std::vector<SideKind>& own) {
    return std::ranges::any_of(own, [&](const SideKind& one) {
        return cv::norm(kind.colour, one.colour, cv::NORM_INF) <= 2 * kSameColour &&
               kind.width < kOfGrid * one.width;
    });
}

/// Lines in steps of whole sides; others, as they are, are left in `lines`.
std::set<std::pair<Place, chart::KeyIndex>> takeSides(std::vector<chart::Line>& lines) {
    std::set<std::pair<Place, chart::KeyIndex>> result;
    std::erase_if(lines, [&](const chart::Line& one) {
        const bool isUpright = one.x1 == one.x2;
        if (!isUpright && one.y1 != one.y2) {
            return false;
        }
        const int line = isUpright ? one.x1 : one.y1;
        const auto [from, to] =
            isUpright ? std::minmax(one.y1, one.y2) : std::minmax(one.x1, one.x2);
        if (line % 2 != 0 || from % 2 != 0 || to % 2 != 0) {
            return false;
        }
        for (int place = from / 2; place < to / 2; ++place) {
            result.insert({{isUpright, line / 2, place}, one.key});
        }
        return true;
    });
    return result;
}

/// Sides that go on straight become one line.
void addRuns(std::set<std::pair<Place, chart::KeyIndex>> sides, std::vector<chart::Line>& lines) {
    while (!sides.empty()) {
        const auto [first, key] = *sides.begin();
        Place next = first;
        while (sides.erase({next, key}) > 0) {
            ++next.place;
        }
        const int at = 2 * first.line;
        lines.push_back(first.isUpright
                            ? chart::Line{at, 2 * first.place, at, 2 * next.place, key}
                            : chart::Line{2 * first.place, at, 2 * next.place, at, key});
    }
}

bool isNear(const colour::Srgb8& one, const cv::Vec3b& bgr) {
    return std::hypot(one.r - bgr[2], one.g - bgr[1], one.b - bgr[0]) < kSameThread;
}

/// Colours that have lines get the first numbers; the others go.
void keepUsed(Backstitch& lines) {
    std::vector<int> numberOf(lines.colours.size(), -1);
    Backstitch used;
    for (chart::Line& line : lines.lines) {
        int& number = numberOf[line.key];
        if (number < 0) {
            number = static_cast<int>(used.colours.size());
            used.colours.push_back(lines.colours[line.key]);
            used.widths.push_back(lines.widths[line.key]);
        }
        line.key = static_cast<chart::KeyIndex>(number);
    }
    lines.colours = used.colours;
    lines.widths = used.widths;
}

} // namespace

Backstitch withDrawnLines(const Sheet& sheet, const Sheet& drawn, Backstitch found) {
    const Sides sides{drawnSides(drawn, false), drawnSides(drawn, true)};
    const std::vector<SideKind> kinds = kindsOf(sides);
    const float scale = static_cast<float>(sheet.cell) / static_cast<float>(drawn.cell);
    std::vector<SideKind> own;
    std::ranges::copy_if(kinds, std::back_inserter(own),
                         [&](const SideKind& kind) { return isUsualOnGround(sides, kind); });
    auto known = takeSides(found.lines);
    std::erase_if(known, [&](const auto& one) { return sides.at(one.first).isPart; });
    std::set<Place> taken;
    for (const auto& one : known) {
        taken.insert(one.first);
    }
    for (const SideKind& kind : kinds) {
        if (static_cast<double>(kind.width) < kSlimmest * drawn.cell || isOfGrid(kind, own)) {
            continue;
        }
        auto same = std::ranges::find_if(
            found.colours, [&](const colour::Srgb8& one) { return isNear(one, kind.colour); });
        const auto number = static_cast<std::size_t>(same - found.colours.begin());
        const bool isKnown =
            same != found.colours.end() && std::abs(found.widths[number] - scale * kind.width) <
                                               std::max(1.0F, 0.25F * scale * kind.width);
        const std::vector<Place> thread = threadOf(sides, kind, isKnown);
        if (thread.empty()) {
            continue;
        }
        if (same == found.colours.end()) {
            found.colours.push_back({kind.colour[2], kind.colour[1], kind.colour[0]});
            found.widths.push_back(scale * kind.width);
        }
        for (const Place& one : thread) {
            if (taken.insert(one).second) {
                known.insert({one, static_cast<chart::KeyIndex>(number)});
            }
        }
    }
    addRuns(std::move(known), found.lines);
    keepUsed(found);
    coverLines(sheet, found);
    return found;
}

} // namespace otherskein::trace::detail
