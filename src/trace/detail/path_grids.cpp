#include "trace/detail/path_grids.h"

#include "trace/detail/median.h"
#include "trace/detail/tiles.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr double kSame = 0.6; // px between lines or ends that are at one place
constexpr double kGap = 1.5;  // px between pieces of one line
constexpr int kFewest = 8;    // cells each way
constexpr double kMostOblong = 1.6;
constexpr double kEven = 0.03;  // of the pitch, that a line may lie off
constexpr double kWhole = 0.99; // of a line, that is drawn

/// A line at a place across its way, from one end to another.
struct Rule {
    double at;
    double from;
    double to;
};

/// Level or upright lines, pieces of one put together.
std::vector<Rule> rulesOf(const PagePaths& page, const cv::Point2d& scale, bool isUpright) {
    std::vector<Rule> pieces;
    for (const PaintedPath& path : page.paths) {
        for (const PathLine& line : path.lines) {
            const cv::Point2d from(line.from.x * scale.x, line.from.y * scale.y);
            const cv::Point2d to(line.to.x * scale.x, line.to.y * scale.y);
            const double off = isUpright ? to.x - from.x : to.y - from.y;
            const double one = isUpright ? from.y : from.x;
            const double other = isUpright ? to.y : to.x;
            if (std::abs(off) < kSame && std::abs(other - one) > kSame) {
                pieces.push_back(
                    {isUpright ? from.x : from.y, std::min(one, other), std::max(one, other)});
            }
        }
    }
    std::ranges::sort(pieces, {}, &Rule::at);
    std::vector<Rule> rules;
    for (std::size_t first = 0; first < pieces.size();) {
        std::size_t end = first;
        while (end < pieces.size() && pieces[end].at - pieces[first].at < kSame) {
            ++end;
        }
        std::sort(pieces.begin() + static_cast<std::ptrdiff_t>(first),
                  pieces.begin() + static_cast<std::ptrdiff_t>(end),
                  [](const Rule& a, const Rule& b) { return a.from < b.from; });
        Rule rule = pieces[first];
        for (std::size_t i = first + 1; i < end; ++i) {
            if (pieces[i].from > rule.to + kGap) {
                rules.push_back(rule);
                rule = pieces[i];
            }
            rule.to = std::max(rule.to, pieces[i].to);
        }
        rules.push_back(rule);
        first = end;
    }
    std::erase_if(rules,
                  [](const Rule& rule) { return rule.to - rule.from < kFewest * kLeastPitch; });
    return rules;
}

/// Lines with the same two ends.
struct Family {
    double from;
    double to;
    std::vector<double> places; ///< in order
};

std::vector<Family> familiesOf(const std::vector<Rule>& rules) {
    std::vector<Family> families;
    for (const Rule& rule : rules) {
        const auto found = std::ranges::find_if(families, [&](const Family& one) {
            return std::abs(one.from - rule.from) < kSame && std::abs(one.to - rule.to) < kSame;
        });
        if (found == families.end()) {
            families.push_back({rule.from, rule.to, {rule.at}});
        } else {
            found->places.push_back(rule.at);
        }
    }
    std::erase_if(families, [](const Family& one) { return one.places.size() < kFewest; });
    return families;
}

/// How many cells lie between `from` and `to`, where lines of `family` and others that are as long
/// stand at each of their sides; 0 where they do not.
int cellsBetween(const Family& family, const std::vector<Rule>& rules, double from, double to) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < family.places.size(); ++i) {
        if (family.places[i] - family.places[i - 1] > kSame) {
            steps.push_back(family.places[i] - family.places[i - 1]);
        }
    }
    if (steps.empty()) {
        return 0;
    }
    const double usual = medianOf(std::move(steps));
    // The first and the last are its own (lines that go on beyond may be another grid's), or those
    // beside them are: a border is not drawn, or longer.
    const double before = family.places.front() - from;
    const double after = to - family.places.back();
    const auto isNear = [&](double off, double wanted) {
        return std::abs(off - wanted) < kEven * usual + kSame;
    };
    const bool hasFirst = isNear(before, 0);
    const bool hasLast = isNear(after, 0);
    if (!(hasFirst || isNear(before, usual)) || !(hasLast || isNear(after, usual))) {
        return 0;
    }
    const auto count = static_cast<int>(std::lround((to - from) / usual));
    const double pitch = (to - from) / std::max(1, count);
    if (count < kFewest || pitch < kLeastPitch || pitch > kMostPitch) {
        return 0;
    }
    for (int k = hasFirst ? 0 : 1; k <= (hasLast ? count : count - 1); ++k) {
        const double place = from + k * pitch;
        const bool isDrawn = std::ranges::any_of(rules, [&](const Rule& rule) {
            return std::abs(rule.at - place) < kEven * pitch + kSame &&
                   std::min(rule.to, family.to) - std::max(rule.from, family.from) >
                       kWhole * (family.to - family.from);
        });
        if (!isDrawn) {
            return 0;
        }
    }
    return count;
}

} // namespace

std::vector<Lattice> gridsAmong(const PagePaths& page, const cv::Point2d& scale) {
    const std::vector<Rule> upright = rulesOf(page, scale, true);
    const std::vector<Rule> level = rulesOf(page, scale, false);
    std::vector<Lattice> grids;
    for (const Family& x : familiesOf(upright)) {
        for (const Family& y : familiesOf(level)) {
            // Upright lines end where the first and the last level ones lie, and the other way.
            const int columns = cellsBetween(x, upright, y.from, y.to);
            const int rows = columns > 0 ? cellsBetween(y, level, x.from, x.to) : 0;
            if (rows == 0) {
                continue;
            }
            Lattice grid;
            grid.columns = columns;
            grid.rows = rows;
            const double wide = (y.to - y.from) / columns;
            const double high = (x.to - x.from) / rows;
            if (std::max(wide, high) > kMostOblong * std::min(wide, high)) {
                continue;
            }
            // Pixels' centres are whole numbers.
            grid.toPage = cv::Matx33d(wide, 0, y.from - 0.5, 0, high, x.from - 0.5, 0, 0, 1);
            grid.pitch = std::sqrt(wide * high);
            grids.push_back(grid);
        }
    }
    std::ranges::stable_sort(grids, std::greater{},
                             [](const Lattice& one) { return one.columns * one.rows; });
    return grids;
}

namespace {

cv::Rect2d boxOf(const Lattice& grid) {
    const cv::Point2d from = grid.corner(0, 0);
    return {from, grid.corner(grid.columns, grid.rows)};
}

} // namespace

bool coverMuch(const std::vector<Lattice>& grids, const cv::Size& page) {
    constexpr double kMuch = 0.1; // of the page
    return std::ranges::any_of(
        grids, [&](const Lattice& grid) { return boxOf(grid).area() > kMuch * page.area(); });
}

void addOthers(const std::vector<Lattice>& more, std::vector<Lattice>& grids) {
    const std::size_t own = grids.size();
    for (const Lattice& one : more) {
        const bool isKnown =
            std::any_of(grids.begin(), grids.begin() + static_cast<std::ptrdiff_t>(own),
                        [&](const Lattice& grid) { return (boxOf(one) & boxOf(grid)).area() > 0; });
        if (!isKnown) {
            grids.push_back(one);
        }
    }
    std::ranges::stable_sort(grids, std::greater{},
                             [](const Lattice& one) { return one.columns * one.rows; });
}

std::vector<Lattice> gridsDrawnOn(const Page& page) {
    const auto paths = page.pdf.isEmpty() ? std::nullopt : pathsOf(page.pdf, page.number);
    if (!paths) {
        return {};
    }
    return gridsAmong(*paths, {page.picture.width() / paths->size.width,
                               page.picture.height() / paths->size.height});
}

} // namespace otherskein::trace::detail
