#include "trace/detail/drawn_lines.h"

#include "trace/detail/drawn_sides.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>
#include <tuple>

namespace otherskein::trace::detail {

namespace {

constexpr double kSameColour = 30;  // grey levels
constexpr double kSameThread = 60;  // as it is on the page, where lines are blurred
constexpr float kSameWidth = 0.1F;  // share
constexpr float kFromPaper = 100;   // grey levels of a channel that a line differs from paper
constexpr double kWhole = 0.95;     // of a line's sides, from which a look is along all of it
constexpr double kMostBoxed = 0.4;  // of a look's sides, around cells that have it all around
constexpr float kMostOfLine = 0.8F; // px by which thread is broader than what it lies over
constexpr int kLeastSides = 3;

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
    std::array<std::vector<int>, 2> whole; ///< level and upright lines that have it all along
    std::vector<Place> partial;            ///< places on other lines
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
                    kind = kinds.insert(kinds.end(), {look.colour, look.width, {}, {}, {}});
                }
                kind->places.push_back({isUpright, line, place});
            }
        }
    }
    return kinds;
}

/// Tells the lines that a look runs all along.
void findWhole(const Sides& sides, SideKind& kind) {
    for (const bool isUpright : {false, true}) {
        const DrawnSides& way = sides.way(isUpright);
        for (int line = 1; line + 1 < way.lines; ++line) {
            int told = 0;
            int like = 0;
            for (int place = 0; place < way.along; ++place) {
                const SideLook& look = way.at(line, place);
                told += look.isHidden ? 0 : 1;
                like += look.isLine() && isLike(look, kind) ? 1 : 0;
            }
            if (like > 0 && like >= kWhole * told) {
                kind.whole[isUpright ? 1 : 0].push_back(line);
            }
        }
    }
    std::ranges::copy_if(kind.places, std::back_inserter(kind.partial), [&](const Place& one) {
        return !std::ranges::binary_search(kind.whole[one.isUpright ? 1 : 0], one.line);
    });
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

/// The width of most of what else lies on a line, beside `kind`; px.
float usualBeside(const DrawnSides& way, int line, const SideKind& kind) {
    std::vector<float> widths;
    for (int place = 0; place < way.along; ++place) {
        const SideLook& look = way.at(line, place);
        if (!look.isHidden && !(look.isLine() && isLike(look, kind))) {
            widths.push_back(look.width);
        }
    }
    return widths.empty() ? 0 : medianOf(std::move(widths));
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

/// Those sides of a look that have thread: all where some can be nothing else, but for whole lines
/// at the grid's own steps.
std::vector<Place> threadOf(const Sides& sides, const SideKind& kind, bool isKnown) {
    const float fromPaper =
        255 - static_cast<float>(std::min({kind.colour[0], kind.colour[1], kind.colour[2]}));
    if (fromPaper < kFromPaper) {
        return {};
    }
    std::vector<Place> over; // what else lies along the same line is slimmer
    for (const Place& one : kind.partial) {
        if (kind.width > usualBeside(sides.way(one.isUpright), one.line, kind) + kMostOfLine) {
            over.push_back(one);
        }
    }
    if (boxedShare(kind.partial) > kMostBoxed) {
        return {};
    }
    const bool isProven = isKnown || static_cast<int>(over.size()) >= kLeastSides;
    std::vector<Place> result;
    for (const bool isUpright : {false, true}) {
        const std::vector<int>& whole = kind.whole[isUpright ? 1 : 0];
        const DrawnSides& way = sides.way(isUpright);
        if (isProven && !isRegular(whole, way.lines - 1)) {
            std::ranges::copy_if(kind.places, std::back_inserter(result), [&](const Place& one) {
                return one.isUpright == isUpright && std::ranges::binary_search(whole, one.line);
            });
        }
    }
    if (isProven) {
        result.insert(result.end(), over.begin(), over.end());
    }
    return result;
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
    std::vector<SideKind> kinds = kindsOf(sides);
    const float scale = static_cast<float>(sheet.cell) / static_cast<float>(drawn.cell);
    auto known = takeSides(found.lines);
    std::erase_if(known, [&](const auto& one) { return sides.at(one.first).isPart; });
    std::set<Place> taken;
    for (const auto& one : known) {
        taken.insert(one.first);
    }
    for (SideKind& kind : kinds) {
        if (static_cast<int>(kind.places.size()) < kLeastSides) {
            continue;
        }
        findWhole(sides, kind);
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
