#include "chart/neighbours.h"

#include "drawn_grid.h"

#include <catch2/catch.hpp>

#include <map>

using namespace otherskein::chart;
using Catch::Matchers::WithinAbs;

namespace {

constexpr std::size_t kRows = 3;

/// The header's words, place by place.
std::map<std::pair<KeyIndex, KeyIndex>, Neighbours> slowNeighbours(const Grid& grid, int within) {
    std::map<std::pair<KeyIndex, KeyIndex>, Neighbours> pairs;
    const auto at = [&](int x, int y) { return grid.contains({x, y}) ? grid.at({x, y}) : kBare; };
    const auto of = [&](KeyIndex p, KeyIndex q) -> Neighbours& {
        return pairs[{std::min(p, q), std::max(p, q)}];
    };
    const auto differ = [](KeyIndex p, KeyIndex q) { return p != kBare && q != kBare && p != q; };
    for (int y = 0; y < grid.rows(); ++y) {
        for (int x = 0; x < grid.columns(); ++x) {
            const KeyIndex here = at(x, y);
            for (const auto& [dx, dy] : {std::pair(1, 0), std::pair(0, 1)}) {
                if (differ(here, at(x + dx, y + dy))) {
                    of(here, at(x + dx, y + dy)).border += 1;
                }
                for (int gap = 1; gap <= within && at(x + gap * dx, y + gap * dy) == kBare; ++gap) {
                    const KeyIndex there = at(x + (gap + 1) * dx, y + (gap + 1) * dy);
                    if (differ(here, there)) {
                        of(here, there).facing += 1.0 / (1 + gap);
                    }
                }
            }
            for (const int dx : {-1, 1}) {
                const KeyIndex there = at(x + dx, y + 1);
                const KeyIndex beside = at(x + dx, y);
                const KeyIndex below = at(x, y + 1);
                if (differ(here, there) && beside != here && beside != there && below != here &&
                    below != there) {
                    of(here, there).border += 0.5;
                }
            }
        }
    }
    return pairs;
}

} // namespace

TEST_CASE("neighbours are what the header says, place by place") {
    for (const Grid& grid : randomGrids()) {
        for (const int within : {0, 1, 2, 6, 1000}) {
            const auto expected = slowNeighbours(grid, within);
            const auto found = neighboursOf(grid, kRows, within);
            CAPTURE(grid.columns(), within);
            REQUIRE(found.size() == expected.size());
            auto next = expected.begin();
            for (const Neighbours& pair : found) {
                REQUIRE((pair.one == next->first.first && pair.other == next->first.second));
                REQUIRE(pair.border == next->second.border);
                REQUIRE_THAT(pair.facing, WithinAbs(next->second.facing, 1e-9));
                ++next;
            }
        }
    }
}

TEST_CASE("a mirrored or turned chart has equal neighbours to the last bit") {
    for (const Grid& grid : randomGrids()) {
        const auto found = neighboursOf(grid, kRows, kWithin);
        CHECK(neighboursOf(mirrored(grid), kRows, kWithin) == found);
        CHECK(neighboursOf(transposed(grid), kRows, kWithin) == found);
    }
}

TEST_CASE("sides count whole, corners half where only corners meet") {
    CHECK(neighboursOf(drawnGrid({"AB", "AB"}), 2) ==
          std::vector<Neighbours>{{0, 1, 2, 0}}); // the diagonals lie beside the sides
    CHECK(neighboursOf(drawnGrid({"A.", ".B"}), 2) == std::vector<Neighbours>{{0, 1, 0.5, 0}});
    CHECK(neighboursOf(drawnGrid({"AC", "CB"}), 3) ==
          std::vector<Neighbours>{{0, 1, 0.5, 0}, {0, 2, 2, 0}, {1, 2, 2, 0}});
}

TEST_CASE("areas face each other across bare ground, nearer ones more, and never through a third") {
    const Grid near = drawnGrid({"A.B", "A.B"});
    CHECK(neighboursOf(near, 2, 0).empty());
    CHECK(neighboursOf(near, 2, 1) == std::vector<Neighbours>{{0, 1, 0, 1}});
    const auto far = neighboursOf(drawnGrid({"A...B"}), 2, 3);
    REQUIRE(far.size() == 1);
    CHECK(far[0].facing == 0.25);
    CHECK(neighboursOf(drawnGrid({"A...B"}), 2, 2).empty());
    const auto between = neighboursOf(drawnGrid({"A.C.B"}), 3, kWithin);
    REQUIRE(between.size() == 2);
    CHECK((between[0].other == 2 && between[1].other == 2));
}

TEST_CASE("motifs of one row of the key are neighbours too") {
    const Motifs motifs = findMotifs(drawnGrid({"####...####", "####...####"}), kUsualStep);
    CHECK(neighboursOf(motifs) == std::vector<Neighbours>{{0, 1, 0, 0.5}});
}

TEST_CASE("charts of no size, one cell or one area have no neighbours") {
    CHECK(neighboursOf(Grid(), 0, 3).empty());
    CHECK(neighboursOf(Grid(5, 0), 0, 3).empty());
    CHECK(neighboursOf(Grid(9, 9), 4, 3).empty());
    CHECK(neighboursOf(drawnGrid({"#"}), 1, 3).empty());
    CHECK(neighboursOf(drawnGrid({"#.#", "###"}), 1, 3).empty());
}
