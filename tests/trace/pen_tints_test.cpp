#include "drawn_sheet.h"

#include "trace/detail/groups.h"
#include "trace/detail/pen_tints.h"

#include <catch2/catch.hpp>

using namespace otherskein::trace::detail;

namespace {

/// How many cells of a row have a symbol (0 is none) on paper, or on green.
struct PenCells {
    int symbol;
    bool isGreen;
    int cells;
};

/// Cells side by side, each kind a group of its own; the first kind is bare.
struct PenRow {
    Groups groups;
    std::vector<GroupLook> looks;

    explicit PenRow(const std::vector<PenCells>& kinds) {
        std::vector<PenCells> cells;
        for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
            cells.insert(cells.end(), static_cast<std::size_t>(kinds[kind].cells), kinds[kind]);
            groups.of.insert(groups.of.end(), static_cast<std::size_t>(kinds[kind].cells),
                             static_cast<int>(kind));
        }
        groups.count = static_cast<int>(kinds.size());
        groups.confidence.assign(groups.of.size(), 1);
        const Sheet sheet =
            sheetWith(static_cast<int>(cells.size()), [&](QPainter& painter, int i) {
                const PenCells& one = cells[static_cast<std::size_t>(i)];
                if (one.isGreen) {
                    painter.fillRect(0, 0, 40, 40, QColor(180, 245, 165));
                }
                if (one.symbol == 1) {
                    painter.fillRect(12, 8, 6, 24, QColor(40, 40, 40));
                } else if (one.symbol == 2) {
                    painter.fillRect(8, 18, 24, 5, QColor(40, 40, 40));
                }
            });
        looks = groupLooks(looksOf(sheet), groups);
        looks[0].isBare = true;
        markPenTints(groups, looks);
    }
};

} // namespace

TEST_CASE("a highlighter's ink under symbols and bare cells is no colour of the chart") {
    const PenRow row(
        {{0, false, 20}, {1, false, 12}, {2, false, 12}, {1, true, 4}, {2, true, 4}, {0, true, 5}});
    for (std::size_t i = 0; i < row.groups.of.size(); ++i) {
        const bool isOnGreen = i >= 44;
        CHECK((row.groups.confidence[i] < 0.5F) == isOnGreen);
    }
    CHECK(row.groups.of[44] == 1);
    CHECK(row.groups.of[48] == 2);
    CHECK(row.looks[5].isBare);
    CHECK(row.looks[1].cells == 16);
    CHECK(row.looks[3].cells == 0);
}

TEST_CASE("a colour that is not seen under two symbols of the paper is the chart's own") {
    SECTION("one symbol only") {
        const PenRow row({{0, false, 20}, {1, false, 12}, {1, true, 4}, {0, true, 5}});
        CHECK_FALSE(row.looks[3].isBare);
        CHECK(row.groups.of[32] == 2);
        CHECK(row.groups.confidence[32] == 1.0F);
    }
    SECTION("as often as on paper: threads are told by symbol and colour") {
        const PenRow row({{0, false, 20},
                          {1, false, 6},
                          {2, false, 6},
                          {1, true, 6},
                          {2, true, 6},
                          {0, true, 5}});
        CHECK_FALSE(row.looks[5].isBare);
        CHECK(row.groups.of[32] == 3);
        CHECK(row.groups.confidence[32] == 1.0F);
    }
}
