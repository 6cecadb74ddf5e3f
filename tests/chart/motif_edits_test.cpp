#include "chart/motifs.h"

#include "drawn_grid.h"
#include "motifs_oracle.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace otherskein::chart;

namespace {

const QString kLeft = QStringLiteral("left house");
const QString kRight = QStringLiteral("right house");

Grid twoHouses() {
    return drawnGrid({"######...######", "######...######", "######...######", "######...######"});
}

Motifs after(const Grid& grid, std::vector<MotifEdit> edits, int step = kUsualStep) {
    Motifs motifs = findMotifs(grid, MotifPlan{step, std::move(edits)});
    REQUIRE(motifs.isConsistent(grid));
    return motifs;
}

CutMotif cut(const Cell& in, std::vector<CutMotif::Point> path) {
    return {in, std::move(path)};
}

} // namespace

TEST_CASE("a plan without edits gives what its step gives") {
    for (const Grid& grid : randomGrids()) {
        for (int step = 0; step < kMotifSteps; ++step) {
            REQUIRE(after(grid, {}, step) == findMotifs(grid, step));
        }
    }
}

TEST_CASE("two motifs are joined, and the first one's name wins") {
    const NameMotif left{{0, 0}, kLeft};
    const NameMotif right{{9, 0}, kRight};
    const JoinMotifs join{{9, 3}, {0, 3}};
    CHECK(after(twoHouses(), {join}).motifs.size() == 1);
    CHECK(after(twoHouses(), {left, join}).motifs[0].name == kLeft);
    CHECK(after(twoHouses(), {left, right, join}).motifs[0].name == kRight);
    CHECK(after(twoHouses(), {join, left, right}).motifs[0].name == kRight);
    CHECK(after(twoHouses(), {left, right}).motifs[0].name == kLeft);
}

TEST_CASE("a line through a motif parts it, and the larger part keeps the name") {
    const NameMotif left{{0, 0}, kLeft};
    const Motifs motifs = after(twoHouses(), {left, cut({5, 3}, {{2, -1}, {2, 5}})});
    REQUIRE(motifs.motifs.size() == 3);
    CHECK(motifs.motifs[0].stitches == 8);
    CHECK(motifs.motifs[0].name.isEmpty());
    CHECK(motifs.motifs[1].stitches == 16);
    CHECK(motifs.motifs[1].name == kLeft);
    CHECK(after(twoHouses(), {cut({0, 0}, {{5, 2}, {-3, 2}})}).motifs.size() == 3);
}

TEST_CASE("a bent line parts a motif, and its ends run on by three quarters of a cell") {
    const Motifs corner = after(twoHouses(), {cut({0, 0}, {{3, -1}, {3, 2}, {-1, 2}})});
    REQUIRE(corner.motifs.size() == 3);
    CHECK(corner.motifs[0].stitches + corner.motifs[1].stitches == 24);
    CHECK(corner.at({0, 0}) == corner.at({2, 1}));
    CHECK(corner.at({0, 0}) != corner.at({3, 1}));
    CHECK(corner.at({0, 2}) == corner.at({3, 1}));
    // From the first middle to the last: too short by half a cell at both ends, but for running on.
    CHECK(after(twoHouses(), {cut({0, 0}, {{3, 0.5}, {3, 3.5}})}).motifs.size() == 3);
    CHECK(after(twoHouses(), {cut({0, 0}, {{3, 1.5}, {3, 2.5}})}).motifs.size() == 2);
}

TEST_CASE("a line along the middles of cells parts them from one side only") {
    const Motifs motifs = after(twoHouses(), {cut({0, 0}, {{2.5, -1}, {2.5, 5}})});
    REQUIRE(motifs.motifs.size() == 3);
    CHECK(motifs.motifs[0].stitches % 4 == 0);
}

TEST_CASE("a cut runs through planks that a bare line parts") {
    const Grid grid = drawnGrid({"########", "........", "########", "........", "########"});
    const Motifs motifs = after(grid, {cut({0, 0}, {{3, -1}, {3, 6}})});
    REQUIRE(motifs.motifs.size() == 2);
    CHECK(motifs.motifs[0].stitches == 9);
    CHECK(motifs.motifs[1].stitches == 15);
}

TEST_CASE("a cut leaves together what was joined by hand and lies off the line") {
    const JoinMotifs join{{0, 0}, {9, 0}};
    const Motifs motifs = after(twoHouses(), {join, cut({0, 0}, {{2, -1}, {2, 5}})});
    REQUIRE(motifs.motifs.size() == 2);
    CHECK(motifs.motifs[0].stitches == 8);
    CHECK(motifs.motifs[1].stitches == 40);
}

TEST_CASE("edits that make no sense change nothing") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    const std::vector<MotifEdit> nonsense{JoinMotifs{{7, 0}, {0, 0}},
                                          JoinMotifs{{0, 0}, {7, 0}},
                                          JoinMotifs{{0, 0}, {5, 3}},
                                          JoinMotifs{{-1, 0}, {99, 99}},
                                          NameMotif{{7, 1}, kLeft},
                                          NameMotif{{-5, 1}, kLeft},
                                          cut({7, 0}, {{2, -1}, {2, 5}}),
                                          cut({99, -2}, {{2, -1}, {2, 5}}),
                                          cut({0, 0}, {}),
                                          cut({0, 0}, {{2, 2}}),
                                          cut({0, 0}, {{2, 2}, {2, 2}}),
                                          cut({0, 0}, {{11, -1}, {11, 5}}),
                                          cut({0, 0}, {{nan, 0}, {2, nan}}),
                                          cut({0, 0}, {{-inf, 2}, {inf, 2}})};
    for (const MotifEdit& edit : nonsense) {
        CAPTURE(edit.index());
        CHECK(after(twoHouses(), {edit}) == findMotifs(twoHouses(), kUsualStep));
    }
}

TEST_CASE("any edits leave motifs that agree with their labels, and cuts only part") {
    std::mt19937 random(4);
    const auto below = [&](int limit) {
        return static_cast<int>(random() % static_cast<unsigned>(limit));
    };
    for (const Grid& grid : randomGrids()) {
        for (const int step : {1, kUsualStep, kPlainStep, kMotifSteps - 1}) {
            const auto cell = [&] { return Cell{below(grid.columns()), below(grid.rows())}; };
            const auto point = [&] {
                return CutMotif::Point{below(grid.columns() * 4) / 4.0,
                                       below(grid.rows() * 4) / 4.0};
            };
            std::vector<MotifEdit> edits;
            Motifs before = findMotifs(grid, step);
            for (int i = 0; i < 8; ++i) {
                const bool isCut = i % 3 == 0;
                if (isCut) {
                    edits.push_back(cut(cell(), {point(), point(), point()}));
                } else if (i % 3 == 1) {
                    edits.push_back(JoinMotifs{cell(), cell()});
                } else {
                    edits.push_back(NameMotif{cell(), QString::number(i)});
                }
                const Motifs now = after(grid, edits, step);
                if (isCut) {
                    REQUIRE(now.motifs.size() >= before.motifs.size());
                }
                before = now;
            }
        }
    }
}
