// Time to cut a chart into motifs and to find what touches what, on the charts that are hardest for
// each. Started by scripts/bench only; the test run never times anything.
#include <catch2/catch.hpp>

#include "chart/motifs.h"
#include "chart/neighbours.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <random>

using namespace otherskein;
using chart::Grid;
using chart::KeyIndex;

namespace {

constexpr KeyIndex kRows = 300; ///< of the key, where a chart has many

template <typename KeyAt>
Grid gridOf(int side, KeyAt keyAt) {
    Grid grid(side, side);
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            grid.set({x, y}, keyAt(x, y));
        }
    }
    return grid;
}

/// Houses in rows: a roof, two floors parted by a bare line, windows, a flag on a pole.
KeyIndex houseAt(int x, int y) {
    constexpr int kWide = 20;
    constexpr int kHigh = 24;
    const int column = x % kWide;
    const int row = y % kHigh;
    const int fromMiddle = std::abs(column - 7);
    bool stitched = false;
    if (row < 4) {
        stitched = column >= 7 && column <= (row < 3 ? 10 : 7);
    } else if (row < 11) {
        stitched = fromMiddle <= row - 4;
    } else {
        const bool isWindow = row % 5 >= 3 && column % 4 >= 2;
        stitched = row != 11 && row != 16 && row < 21 && fromMiddle <= 6 && !isWindow;
    }
    return stitched ? KeyIndex{0} : chart::kBare;
}

struct Kind {
    const char* name;
    Grid (*make)(int side);
};

const Kind kKinds[] = {
    {"houses", [](int side) { return gridOf(side, houseAt); }},
    {"one full piece", [](int side) { return gridOf(side, [](int, int) { return KeyIndex{0}; }); }},
    {"checkerboard, one row of the key",
     [](int side) {
         return gridOf(side,
                       [](int x, int y) { return (x + y) % 2 == 0 ? KeyIndex{0} : chart::kBare; });
     }},
    {"checkerboard, two rows, no bare",
     [](int side) {
         return gridOf(side, [](int x, int y) { return static_cast<KeyIndex>((x + y) % 2); });
     }},
    {"lattice of single stitches",
     [](int side) {
         return gridOf(
             side, [](int x, int y) { return x % 2 + y % 2 == 0 ? KeyIndex{0} : chart::kBare; });
     }},
    {"noise, half bare",
     [](int side) {
         std::mt19937 random(1);
         return gridOf(side,
                       [&](int, int) { return random() % 2 == 0 ? KeyIndex{0} : chart::kBare; });
     }},
    {"noise, half bare, 300 rows",
     [](int side) {
         std::mt19937 random(2);
         return gridOf(side, [&](int, int) {
             const auto drawn = random();
             return drawn % 2 == 0 ? static_cast<KeyIndex>(drawn / 2 % kRows) : chart::kBare;
         });
     }},
    {"noise, 300 rows, no bare",
     [](int side) {
         std::mt19937 random(3);
         return gridOf(side, [&](int, int) { return static_cast<KeyIndex>(random() % kRows); });
     }},
};

/// Of the processor, so that whoever else works on the machine does not count (much).
template <typename Work>
double milliseconds(int rounds, Work work) {
    double best = 1e300;
    for (int i = 0; i < rounds; ++i) {
        const std::clock_t start = std::clock();
        work();
        best = std::min(best, 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return best;
}

void print(const char* what, const Grid& grid, double ms) {
    const auto cells = static_cast<double>(grid.cells().size());
    std::printf("    %-28s %5.2f million cells %8.1f ms %7.1f ns a cell\n", what, cells / 1e6, ms,
                ms * 1e6 / cells);
}

constexpr int kSides[] = {500, 1000, 2000};
constexpr int kRounds = 3;

} // namespace

TEST_CASE("motifs of large charts") {
    std::puts("\nMotifs, one core (goal: 150 ms for 1 million cells)");
    for (const Kind& kind : kKinds) {
        std::printf("  %s\n", kind.name);
        for (const int step : {0, chart::kUsualStep, chart::kPlainStep, chart::kMotifSteps - 1}) {
            for (const int side : kSides) {
                const Grid grid = kind.make(side);
                std::size_t found = 0;
                const double ms = milliseconds(
                    kRounds, [&] { found = chart::findMotifs(grid, step).motifs.size(); });
                char what[64];
                std::snprintf(what, sizeof what, "step %d: %zu motifs", step, found);
                print(what, grid, ms);
            }
        }
    }
}

TEST_CASE("neighbours in large charts") {
    std::puts("\nNeighbours, one core (goal: 60 ms for 1 million cells)");
    for (const Kind& kind : kKinds) {
        std::printf("  %s\n", kind.name);
        for (const int side : kSides) {
            const Grid grid = kind.make(side);
            const chart::Motifs motifs = chart::findMotifs(grid, chart::kPlainStep);
            for (const int within : {0, chart::kWithin, 1000}) {
                std::size_t found = 0;
                const double ms = milliseconds(
                    kRounds, [&] { found = chart::neighboursOf(motifs, within).size(); });
                char what[64];
                std::snprintf(what, sizeof what, "within %d: %zu pairs", within, found);
                print(what, grid, ms);
            }
        }
    }
}
