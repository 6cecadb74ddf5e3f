#include "chart/motifs.h"

#include "drawn_grid.h"
#include "motifs_oracle.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace otherskein::chart;

namespace {

constexpr KeyBounds kBothBounds[] = {KeyBounds::Kept, KeyBounds::Ignored};

std::size_t countAt(const Grid& grid, int step, KeyBounds bounds = KeyBounds::Kept) {
    return findMotifs(grid, step, bounds).motifs.size();
}

template <typename IsIn>
Grid shape(int columns, int rows, IsIn isIn) {
    Grid grid(columns, rows);
    for (int y = 0; y < rows; ++y) {
        for (int x = 0; x < columns; ++x) {
            if (isIn(x, y)) {
                grid.set({x, y}, 0);
            }
        }
    }
    return grid;
}

/// Random boxes joined by bars: what necks are made of.
Grid boxesAndBars(unsigned seed) {
    std::mt19937 random(seed);
    const auto below = [&](unsigned limit) { return static_cast<int>(random() % limit); };
    Grid grid(60, 50);
    for (int i = 0; i < 14; ++i) {
        const Area box{below(50), below(40), 1 + below(12), 1 + below(i % 2 == 0 ? 12 : 3)};
        const auto key = static_cast<KeyIndex>(below(8) / 7);
        for (int y = box.top; y < std::min(50, box.top + box.rows); ++y) {
            for (int x = box.left; x < std::min(60, box.left + box.columns); ++x) {
                grid.set({x, y}, key);
            }
        }
    }
    return grid;
}

std::vector<Grid> allGrids() {
    std::vector<Grid> grids = randomGrids();
    for (unsigned seed = 1; seed <= 30; ++seed) {
        grids.push_back(boxesAndBars(seed));
    }
    return grids;
}

} // namespace

TEST_CASE("steps that bridge and the plain step are what a slow walk around each piece gives") {
    for (const Grid& grid : randomGrids()) {
        for (const KeyBounds bounds : kBothBounds) {
            const SlowMotifs slow(grid, bounds);
            for (int step = 0; step <= kPlainStep; ++step) {
                CAPTURE(grid.columns(), step, bounds == KeyBounds::Kept);
                REQUIRE(byAppearance(findMotifs(grid, step, bounds).of) ==
                        byAppearance(slow.at(step)));
            }
        }
    }
}

TEST_CASE("a higher step only splits what the step before has") {
    std::size_t splits = 0;
    for (const Grid& grid : allGrids()) {
        for (const KeyBounds bounds : kBothBounds) {
            Motifs before = findMotifs(grid, 0, bounds);
            for (int step = 1; step < kMotifSteps; ++step) {
                const Motifs after = findMotifs(grid, step, bounds);
                std::vector<MotifIndex> parent(after.motifs.size(), kNoMotif);
                for (std::size_t i = 0; i < after.of.size(); ++i) {
                    if (after.of[i] != kNoMotif) {
                        MotifIndex& one = parent[after.of[i]];
                        one = one == kNoMotif ? before.of[i] : one;
                        REQUIRE(one == before.of[i]);
                    }
                }
                REQUIRE(after.motifs.size() >= before.motifs.size());
                splits += step > kPlainStep ? after.motifs.size() - before.motifs.size() : 0;
                before = after;
            }
        }
    }
    CHECK(splits > 20); // or the steps above the plain one were not tried
}

TEST_CASE("motifs agree with their labels, stand in order, and keep to their row of the key") {
    for (const Grid& grid : allGrids()) {
        for (int step = 0; step < kMotifSteps; ++step) {
            const Motifs motifs = findMotifs(grid, step);
            REQUIRE(motifs.isConsistent(grid));
            REQUIRE(motifs == findMotifs(grid, step));
            for (std::size_t i = 1; i < motifs.motifs.size(); ++i) {
                const auto key = [&](std::size_t k) {
                    const Motif& one = motifs.motifs[k];
                    return std::tuple(one.bounds.left, one.bounds.top, one.first.row,
                                      one.first.column);
                };
                REQUIRE(key(i - 1) < key(i));
            }
            for (std::size_t i = 0; i < motifs.of.size(); ++i) {
                if (motifs.of[i] != kNoMotif) {
                    REQUIRE(grid.cells()[i] == grid.at(motifs.motifs[motifs.of[i]].first));
                }
            }
        }
    }
}

TEST_CASE("a gap of g bare stitches is bridged by the steps that say so, and by no others") {
    for (int gap = 1; gap <= 10; ++gap) {
        const std::string row = "####" + std::string(static_cast<std::size_t>(gap), '.') + "####";
        for (int step = 0; step < kMotifSteps; ++step) {
            CAPTURE(gap, step);
            CHECK(countAt(drawnGrid({row}), step) == (gap <= bridgedGap(step) ? 1U : 2U));
        }
    }
    CHECK(bridgedGap(kUsualStep) == 1);
    CHECK(bridgedGap(kPlainStep) == 0);
}

TEST_CASE("planks parted by a bare line are one motif at the usual step, houses are not") {
    const Grid grid = drawnGrid({"#####...#####", ".............", "#####...#####", "#####...#####",
                                 ".............", "#####...#####"});
    CHECK(countAt(grid, kUsualStep) == 2);
    CHECK(countAt(grid, kPlainStep) == 6);
}

TEST_CASE("what is worked in another row of the key is no bare ground") {
    const Grid grid = drawnGrid({"AAAABAAAA"});
    CHECK(countAt(grid, 0) == 3);
    CHECK(countAt(grid, kPlainStep, KeyBounds::Ignored) == 1);
    // Whose front comes first to the bare cells does not matter either.
    for (const auto& rows : {std::vector<std::string>{"AAAA..AAAA", "BBBBBBBBBB"},
                             std::vector<std::string>{"BBBBBBBBBB", "AAAA..AAAA"}}) {
        CHECK(countAt(drawnGrid(rows), 3) == 2);
        CHECK(countAt(drawnGrid(rows), kUsualStep) == 3);
    }
}

TEST_CASE("crumbs go to the nearest piece, then to the larger, and stay alone with nobody near") {
    const Grid grid =
        drawnGrid({"####..#...#####", "####......#####", "...............", "...............",
                   "...............", "...............", ".......###....."});
    const Motifs motifs = findMotifs(grid, kPlainStep);
    REQUIRE(motifs.motifs.size() == 3);
    CHECK(motifs.at({6, 0}) == motifs.at({0, 0})); // two bare stitches away, not three
    CHECK(motifs.motifs[motifs.at({7, 6})].stitches == 3);

    const Motifs tie = findMotifs(drawnGrid({"####.#.#####"}), kPlainStep);
    CHECK(tie.at({5, 0}) == tie.at({11, 0}));
}

TEST_CASE("two bodies joined by a thin neck are split") {
    const auto bodies = [](int wide) {
        return shape(36, 14, [=](int x, int y) {
            const bool isDisc = std::hypot(x - 7, y - 6.5) <= 6 || std::hypot(x - 28, y - 6.5) <= 6;
            return isDisc || (x > 7 && x < 28 && y >= 7 - wide / 2 && y < 7 - wide / 2 + wide);
        });
    };
    CHECK(countAt(bodies(1), kPlainStep) == 1);
    CHECK(countAt(bodies(1), kPlainStep + 1) == 2);
    CHECK(countAt(bodies(2), kPlainStep + 2) == 2);
    CHECK(countAt(bodies(4), kPlainStep + 2) == 1);
    CHECK(countAt(bodies(4), kMotifSteps - 1) == 2);
    // Bridges are cut in the middle, so the halves are as large as each other.
    const Motifs halves = findMotifs(bodies(2), kMotifSteps - 1);
    CHECK(halves.motifs[0].stitches == halves.motifs[1].stitches);
}

TEST_CASE("a flag comes off its house at the pole") {
    for (const int pole : {1, 2}) {
        const Grid grid = shape(24, 30, [=](int x, int y) {
            return (y < 14 && x >= 5 && x < 5 + pole) || (y < 5 && x >= 5 && x < 13) || y >= 14;
        });
        CAPTURE(pole);
        CHECK(countAt(grid, kPlainStep) == 1);
        CHECK(countAt(grid, kPlainStep + 2) == 2);
        CHECK(countAt(grid, kMotifSteps - 1) == 2);
    }
}

TEST_CASE("shapes without a neck stay whole at every step") {
    std::vector<std::pair<std::string, Grid>> shapes;
    for (int w = 1; w <= 6; ++w) {
        const std::string wide = std::to_string(w);
        shapes.emplace_back("bar " + wide, shape(20, 8, [=](int, int y) { return y < w; }));
        shapes.emplace_back("angle " + wide,
                            shape(30, 30, [=](int x, int y) { return x < w || y >= 30 - w; }));
        shapes.emplace_back("slanting bar " + wide, shape(40, 30, [=](int x, int y) {
                                return std::abs(0.6 * x - 0.8 * y) <= w / 2.0;
                            }));
    }
    for (unsigned seed = 1; seed <= 20; ++seed) {
        std::mt19937 random(seed);
        std::vector<double> fray;
        for (int i = 0; i < 60; ++i) {
            fray.push_back(static_cast<double>(random() % 1000) / 400 - 1.25);
        }
        const double radius = 5 + seed;
        shapes.emplace_back("frayed disc " + std::to_string(seed), shape(60, 60, [&](int x, int y) {
                                const double turn = std::atan2(y - 30, x - 30) / 6.2832 + 0.5;
                                return std::hypot(x - 30, y - 30) <=
                                       radius + fray[static_cast<std::size_t>(turn * 59.9)];
                            }));
    }
    for (const auto& [name, grid] : shapes) {
        CAPTURE(name);
        CHECK(countAt(grid, kMotifSteps - 1) == 1);
    }
}

TEST_CASE("the steps up to the plain one see a mirrored or turned chart the same way") {
    for (const Grid& grid : randomGrids()) {
        for (int step = 0; step <= kPlainStep; ++step) {
            const std::size_t count = countAt(grid, step);
            CHECK(countAt(mirrored(grid), step) == count);
            CHECK(countAt(transposed(grid), step) == count);
        }
    }
}

TEST_CASE("charts of no size, one cell, one column, nothing and everything have their motifs") {
    for (int step = 0; step < kMotifSteps; ++step) {
        CAPTURE(step);
        CHECK(countAt(Grid(), step) == 0);
        CHECK(countAt(Grid(0, 7), step) == 0);
        CHECK(countAt(Grid(7, 0), step) == 0);
        CHECK(countAt(Grid(30, 20), step) == 0);
        CHECK(countAt(drawnGrid({"#"}), step) == 1);
        CHECK(countAt(shape(1, 2000, [](int, int) { return true; }), step) == 1);
        CHECK(countAt(shape(2000, 1, [](int, int) { return true; }), step) == 1);
        CHECK(countAt(shape(300, 200, [](int, int) { return true; }), step) == 1);
    }
}
