// Which of a page's paths are backstitch: pages of paths that are set together here, in cells.
#include "trace/detail/path_lines.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::trace::detail;

namespace {

constexpr int kPathColumns = 20;
constexpr int kPathRows = 15;
constexpr double kPathCell = 10; // points
const cv::Point2d kPathCorner(50, 40);

/// A page of paths whose places are said in cells.
struct Paths {
    PagePaths page{{300, 250}, {}, {}, {}};

    PathPlace add(const std::string& look, const std::vector<cv::Vec4d>& lines, double width = 1) {
        PaintedPath path;
        path.place = {0, static_cast<int>(page.paths.size())};
        for (const cv::Vec4d& line : lines) {
            path.lines.push_back({kPathCorner + kPathCell * cv::Point2d(line[0], line[1]),
                                  kPathCorner + kPathCell * cv::Point2d(line[2], line[3]), width});
        }
        path.look = look;
        page.paths.push_back(path);
        return path.place;
    }

    void addGrid() {
        for (int i = 0; i <= kPathColumns; ++i) {
            add("thin", {{double(i), 0, double(i), kPathRows}}, 0.3);
        }
        for (int i = 0; i <= kPathRows; ++i) {
            add("thin", {{0, double(i), kPathColumns, double(i)}}, 0.3);
        }
    }

    PathPlace addRound(const cv::Point2d& middle, double size) {
        PaintedPath path;
        path.place = {0, static_cast<int>(page.paths.size())};
        const cv::Point2d corner = kPathCorner + kPathCell * (middle - cv::Point2d(size, size) / 2);
        path.round = cv::Rect2d(corner.x, corner.y, kPathCell * size, kPathCell * size);
        path.look = "round";
        page.paths.push_back(path);
        return path.place;
    }

    /// As it is found on a grid that lies off by some cells.
    [[nodiscard]] PathLines found(const cv::Point2d& off = {}) const {
        const cv::Point2d corner = kPathCorner + kPathCell * off;
        return backstitchAmong(page,
                               {1 / kPathCell, 0, -corner.x / kPathCell, 0, 1 / kPathCell,
                                -corner.y / kPathCell, 0, 0, 1},
                               kPathColumns, kPathRows);
    }
};

/// An outline that no grid and no symbol has; a hook, in cells.
const std::vector<cv::Vec4d> kPathHook{
    {3, 4, 9, 4}, {9, 4, 9, 8}, {9, 8, 7, 10}, {7, 10, 4, 10}, {4, 10, 4.5, 8.5}};

bool holds(const PathLines& found, const cv::Vec4d& line) {
    return std::ranges::any_of(found.lines, [&](const chart::Line& one) {
        const cv::Vec4d there(one.x1 / 2.0, one.y1 / 2.0, one.x2 / 2.0, one.y2 / 2.0);
        const cv::Vec4d back(one.x2 / 2.0, one.y2 / 2.0, one.x1 / 2.0, one.y1 / 2.0);
        return there == line || back == line;
    });
}

void checkHook(const PathLines& found) {
    CHECK(found.lines.size() == kPathHook.size());
    CHECK(found.looks.size() == 1);
    for (const cv::Vec4d& line : kPathHook) {
        CAPTURE(line);
        CHECK(holds(found, line));
    }
}

} // namespace

TEST_CASE("outlines are found where the grid was found a fifth of a cell off") {
    for (const cv::Point2d& off :
         {cv::Point2d(0, 0), cv::Point2d(0.2, -0.2), cv::Point2d(-0.2, 0.15)}) {
        CAPTURE(off);
        Paths paths;
        paths.addGrid();
        paths.add("outline", kPathHook);
        checkHook(paths.found(off));
    }
}

TEST_CASE("outlines are found line by line as in one path, with half cells at both ends") {
    Paths paths;
    paths.addGrid();
    for (const cv::Vec4d& line : kPathHook) {
        paths.add("outline", {line});
    }
    checkHook(paths.found());
    Paths halves;
    halves.addGrid();
    halves.add("outline", {{2.5, 2.5, 5, 3.5}, {5, 3.5, 8.5, 3.5}, {8.5, 3.5, 8.5, 9}});
    const PathLines found = halves.found();
    CHECK(found.lines.size() == 3);
    CHECK(holds(found, {2.5, 2.5, 5, 3.5}));
    CHECK(holds(found, {8.5, 3.5, 8.5, 9}));
}

TEST_CASE("lines that end elsewhere in cells are no backstitch") {
    Paths paths;
    paths.addGrid();
    paths.add("stroke", {{3.15, 4.15, 8.85, 4.15}, {8.85, 4.15, 8.85, 9.15}});
    CHECK(paths.found().lines.empty());
}

TEST_CASE("bold lines every ten cells, middles and the frame are the grid's own") {
    Paths paths;
    paths.addGrid();
    paths.add("bold", {{10, 0, 10, kPathRows}}, 1.5);
    paths.add("bold", {{0, 10, kPathColumns, 10}}, 1.5);
    paths.add("middle", {{0, 7, kPathColumns, 7}, {11, 0, 11, kPathRows}}, 2);
    paths.add("frame", {{0, 0, kPathColumns, 0},
                        {kPathColumns, 0, kPathColumns, kPathRows},
                        {kPathColumns, kPathRows, 0, kPathRows},
                        {0, kPathRows, 0, 0}});
    CHECK(paths.found().lines.empty());
    paths.add("outline", kPathHook);
    checkHook(paths.found());
}

TEST_CASE("rectangles around cells are a grid, or edges of what is filled") {
    const auto box = [](double x, double y) {
        return std::vector<cv::Vec4d>{
            {x, y, x + 1, y}, {x + 1, y, x + 1, y + 1}, {x + 1, y + 1, x, y + 1}, {x, y + 1, x, y}};
    };
    Paths everywhere;
    Paths some;
    some.addGrid();
    for (int y = 0; y < kPathRows; ++y) {
        for (int x = 0; x < kPathColumns; ++x) {
            everywhere.add("box", box(x, y));
            if ((x * 7 + y * 3) % 5 == 0) {
                some.add("edge", box(x, y));
            }
        }
    }
    CHECK(everywhere.found().lines.empty());
    CHECK(some.found().lines.empty());
    everywhere.add("outline", kPathHook);
    checkHook(everywhere.found());
    some.add("outline", kPathHook);
    checkHook(some.found());
}

TEST_CASE("symbols of strokes from corner to corner are no backstitch") {
    for (const std::string symbol : {"slash", "cross", "plus", "roof"}) {
        CAPTURE(symbol);
        Paths paths;
        paths.addGrid();
        for (int i = 0; i < 60; ++i) {
            const double x = i % 10 + 3;
            const double y = std::floor(i / 10.0) + 2;
            if (symbol == "slash") {
                paths.add("symbol", {{x, y + 1, x + 1, y}});
            } else if (symbol == "cross") {
                paths.add("symbol", {{x, y + 1, x + 1, y}, {x, y, x + 1, y + 1}});
            } else if (symbol == "plus") {
                paths.add("symbol", {{x + 0.5, y, x + 0.5, y + 1}, {x, y + 0.5, x + 1, y + 0.5}});
            } else {
                paths.add("symbol", {{x, y + 1, x + 0.5, y}, {x + 0.5, y, x + 1, y + 1}});
            }
        }
        CHECK(paths.found().lines.empty());
        paths.add("outline", kPathHook);
        checkHook(paths.found());
    }
}

TEST_CASE("a pale rim below is one line with what lies on it, and goes with it") {
    Paths paths;
    paths.addGrid();
    const PathPlace rim = paths.add("rim", kPathHook, 3);
    const PathPlace line = paths.add("outline", kPathHook, 1);
    const PathLines found = paths.found();
    checkHook(found);
    CHECK(found.looks[0].width == Approx(0.1));
    CHECK(found.places == std::set<PathPlace>{rim, line});
}

TEST_CASE("two looks along other ways are two") {
    Paths paths;
    paths.addGrid();
    paths.add("outline", kPathHook);
    paths.add("other", {{12, 3, 17, 3}, {17, 3, 17, 6}});
    const PathLines found = paths.found();
    CHECK(found.looks.size() == 2);
    CHECK(found.lines.size() == kPathHook.size() + 2);
}

TEST_CASE("knots at crossings and sides go with the lines, dots in the middle of cells stay") {
    Paths paths;
    paths.addGrid();
    const PathPlace outline = paths.add("outline", kPathHook);
    const PathPlace atCorner = paths.addRound({9, 4}, 0.4);
    const PathPlace onSide = paths.addRound({6.5, 4}, 0.4);
    const PathPlace inMiddle = paths.addRound({5.5, 5.5}, 0.4);
    const PathPlace large = paths.addRound({5, 5}, 2);
    const std::set<PathPlace> gone = paths.found().places;
    CHECK(gone.contains(outline));
    CHECK(gone.contains(atCorner));
    CHECK(gone.contains(onSide));
    CHECK_FALSE(gone.contains(inMiddle));
    CHECK_FALSE(gone.contains(large));
}

TEST_CASE("lines along a whole band by irregular steps are backstitch") {
    Paths paths;
    paths.addGrid();
    for (const double y : {2, 3, 6, 11}) {
        paths.add("band", {{0, y, kPathColumns, y}});
    }
    const PathLines found = paths.found();
    CHECK(found.lines.size() == 4);
    CHECK(holds(found, {0, 6, kPathColumns, 6}));
}

TEST_CASE("paths outside the grid and of no length are nobody's lines") {
    Paths paths;
    paths.addGrid();
    paths.add("outline", {{22, 3, 27, 3}, {27, 3, 27, 8}});
    paths.add("outline", {{5, 5, 5, 5}});
    paths.add("long", {{3, 3, 1e300, 3}});
    CHECK(paths.found().lines.empty());
}

TEST_CASE("a grid of which every other side is missing is a grid") {
    Paths paths;
    for (int y = 0; y < kPathRows; ++y) {
        for (int x = 0; x < kPathColumns; ++x) {
            if ((x + y) % 2 == 0) {
                paths.add("thin", {{double(x), double(y), x + 1.0, double(y)}}, 0.3);
                paths.add("thin", {{double(x), double(y), double(x), y + 1.0}}, 0.3);
            }
        }
    }
    CHECK(paths.found().lines.empty());
}

TEST_CASE("scattered marks of half a cell that touch no other are no backstitch") {
    Paths quarters;
    Paths ticks;
    quarters.addGrid();
    ticks.addGrid();
    for (int i = 0; i < 12; ++i) {
        const double x = i * 7 % kPathColumns;
        const double y = i * 4 % kPathRows;
        quarters.add("mark", {{x, y, x + 0.5, y + 0.5}});
    }
    for (int i = 0; i < kPathColumns; i += 5) {
        ticks.add("mark", {{double(i), 0, double(i), 0.5}});
        ticks.add("mark", {{double(i), kPathRows, double(i), kPathRows - 0.5}});
    }
    CHECK(quarters.found().lines.empty());
    CHECK(ticks.found().lines.empty());
    // Where they go on they are ends of an outline.
    quarters.add("outline", kPathHook);
    checkHook(quarters.found());
}
