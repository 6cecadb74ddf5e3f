#include "trace/detail/path_grids.h"

#include <catch2/catch.hpp>

using namespace otherskein::trace::detail;

namespace {

/// A page of upright and level lines, in points; a point is a pixel.
struct RuledPage {
    PagePaths page{{800, 600}, {}, {}, {}};

    void line(double x1, double y1, double x2, double y2) {
        PaintedPath path;
        path.place = {0, static_cast<int>(page.paths.size())};
        path.lines.push_back({{x1, y1}, {x2, y2}, 0.3});
        page.paths.push_back(path);
    }

    /// All lines of a grid, each `beyond` longer at both ends where its number is one of ten.
    void grid(const cv::Rect2d& box, int columns, int rows, double beyond = 0) {
        for (int i = 0; i <= columns; ++i) {
            const double more = i % 10 == 0 ? beyond : 0;
            const double x = box.x + box.width * i / columns;
            line(x, box.y - more, x, box.y + box.height + more);
        }
        for (int i = 0; i <= rows; ++i) {
            const double more = i % 10 == 0 ? beyond : 0;
            const double y = box.y + box.height * i / rows;
            line(box.x - more, y, box.x + box.width + more, y);
        }
    }

    [[nodiscard]] std::vector<Lattice> found() const { return gridsAmong(page, {1, 1}); }
};

void checkGrid(const Lattice& grid, int columns, int rows, const cv::Point2d& corner) {
    CHECK(grid.columns == columns);
    CHECK(grid.rows == rows);
    CHECK(grid.corner(0, 0).x == Approx(corner.x - 0.5)); // pixels' centres are whole numbers
    CHECK(grid.corner(0, 0).y == Approx(corner.y - 0.5));
}

} // namespace

TEST_CASE("a grid whose every line is drawn is found where it lies") {
    RuledPage ruled;
    SECTION("each line at once") {
        ruled.grid({100, 50, 240, 180}, 20, 15);
    }
    SECTION("every tenth somewhat longer") {
        ruled.grid({100, 50, 240, 180}, 20, 15, 3);
    }
    SECTION("side by side of each cell") {
        for (int row = 0; row < 15; ++row) {
            for (int column = 0; column < 20; ++column) {
                const double x = 100 + 12.0 * column;
                const double y = 50 + 12.0 * row;
                ruled.line(x, y, x + 12, y);
                ruled.line(x, y + 12, x + 12, y + 12);
                ruled.line(x, y, x, y + 12);
                ruled.line(x + 12, y, x + 12, y + 12);
            }
        }
    }
    SECTION("without a border") {
        for (int i = 1; i < 20; ++i) {
            ruled.line(100 + 12.0 * i, 50, 100 + 12.0 * i, 230);
        }
        for (int i = 1; i < 15; ++i) {
            ruled.line(100, 50 + 12.0 * i, 340, 50 + 12.0 * i);
        }
    }
    const std::vector<Lattice> grids = ruled.found();
    REQUIRE(grids.size() == 1);
    checkGrid(grids[0], 20, 15, {100, 50});
    CHECK(grids[0].pitch == Approx(12));
}

TEST_CASE("two grids of a page are two, and no third of one's columns and the other's rows") {
    RuledPage ruled;
    ruled.grid({100, 50, 240, 180}, 20, 15);
    SECTION("one below the other") {
        ruled.grid({100, 300, 120, 108}, 10, 9);
    }
    SECTION("one beside the other") {
        ruled.grid({400, 50, 120, 108}, 10, 9);
    }
    const std::vector<Lattice> grids = ruled.found();
    REQUIRE(grids.size() == 2);
    CHECK(grids[0].columns == 20);
    CHECK(grids[0].rows == 15);
    CHECK(grids[1].columns == 10);
    CHECK(grids[1].rows == 9);
}

TEST_CASE("lines are no grid where one is missing, at unequal steps, or of few or long cells") {
    RuledPage ruled;
    SECTION("one is missing inside") {
        ruled.grid({100, 50, 240, 180}, 20, 15);
        ruled.page.paths.erase(ruled.page.paths.begin() + 7);
    }
    SECTION("unequal steps, as of a table") {
        for (int i = 0; i <= 12; ++i) {
            const double x = 100 + 20 * (i + (i % 2 == 0 ? 0 : 0.4));
            ruled.line(x, 50, x, 230);
            ruled.line(100, 50 + 15.0 * i, 340, 50 + 15.0 * i);
        }
    }
    SECTION("few cells") {
        ruled.grid({100, 50, 84, 180}, 7, 15);
    }
    SECTION("cells much wider than high") {
        ruled.grid({100, 50, 400, 180}, 20, 15);
    }
    CHECK(ruled.found().empty());
}

TEST_CASE("only a large grid is the page's chart for sure; others beside it are added") {
    RuledPage ruled;
    ruled.grid({100, 50, 120, 108}, 10, 9);
    std::vector<Lattice> grids = ruled.found();
    REQUIRE(grids.size() == 1);
    CHECK(coverMuch(grids, {300, 250}));
    CHECK_FALSE(coverMuch(grids, {800, 600}));
    Lattice same = grids[0];
    same.columns = 9;
    Lattice chart = grids[0];
    chart.toPage(0, 2) = 300;
    chart.columns = 30;
    addOthers({same, chart}, grids);
    REQUIRE(grids.size() == 2);
    CHECK(grids[0].columns == 30);
    CHECK(grids[1].columns == 10);
}
