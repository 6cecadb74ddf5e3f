#include "trace/detail/drawn_groups.h"

#include "trace/tracing.h"

#include <catch2/catch.hpp>

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <functional>

using namespace otherskein;
using namespace otherskein::trace::detail;

namespace {

constexpr int kCellSide = 40;
const cv::Scalar kDark(0, 0, 0);

/// A sheet of cells, filled by `draw`, which gets each cell's corner.
Sheet cellsWith(int columns, int rows,
                const std::function<void(cv::Mat&, int column, const cv::Point& corner)>& draw) {
    Sheet sheet;
    sheet.cell = kCellSide;
    sheet.columns = columns;
    sheet.rows = rows;
    sheet.straight = cv::Mat(rows * kCellSide, columns * kCellSide, CV_8UC3, cv::Scalar::all(255));
    for (int i = 0; i < columns * rows; ++i) {
        draw(sheet.straight, i % columns, sheet.box(i % columns, i / columns).tl());
    }
    return sheet;
}

void fill(cv::Mat& picture, const cv::Point& corner, const cv::Rect& box, const cv::Scalar& ink) {
    picture(box + corner).setTo(ink);
}

Groups groupsOn(const Sheet& sheet) {
    const auto told = drawnGroupsOf(std::span(&sheet, 1), {}, {});
    REQUIRE(told);
    return told->groups;
}

} // namespace

TEST_CASE("a knot on the border of two drawn cells is of neither, and they are doubtful") {
    const auto kindOf = [](int column, int row) { return (column / 2 + row) % 2; };
    Sheet sheet = cellsWith(14, 4, [&](cv::Mat& picture, int column, const cv::Point& corner) {
        fill(picture, corner, {0, 0, 40, 40},
             kindOf(column, corner.y / kCellSide) == 0 ? cv::Scalar(90, 210, 240)
                                                       : cv::Scalar(170, 120, 60));
    });
    const std::array<cv::Point, 3> knots{cv::Point(4, 1), {7, 2}, {11, 1}};
    for (const cv::Point& knot : knots) {
        cv::ellipse(sheet.straight, cv::Point(knot.x * kCellSide, knot.y * kCellSide + 20), {11, 7},
                    0, 0, 360, cv::Scalar(30, 30, 160), 3, cv::LINE_AA);
    }
    const Groups groups = groupsOn(sheet);
    const std::array<int, 2> groupOf{groups.of[0], groups.of[2]};
    CHECK(groupOf[0] != groupOf[1]);
    for (int i = 0; i < 14 * 4; ++i) {
        const cv::Point place(i % 14, i / 14);
        const auto at = static_cast<std::size_t>(i);
        CHECK(groups.of[at] == groupOf[static_cast<std::size_t>(kindOf(place.x, place.y))]);
        const bool hasKnot = std::ranges::any_of(knots, [&](const cv::Point& knot) {
            return knot == place || knot == place + cv::Point(1, 0);
        });
        CHECK((groups.confidence[at] < trace::kDoubtful) == hasKnot);
    }
}

TEST_CASE("marks that end at a drawn cell's border, or cross it from side to side, are its own") {
    const Sheet sheet = cellsWith(12, 1, [](cv::Mat& picture, int column, const cv::Point& corner) {
        if (column == 4 || column == 5) {
            fill(picture, corner, {0, 17, 40, 6}, kDark);
        } else if (column == 8) {
            fill(picture, corner, {0, 15, 12, 10}, kDark);
        }
    });
    const Groups groups = groupsOn(sheet);
    CHECK(groups.of[4] == groups.of[5]);
    CHECK(groups.of[4] != groups.of[0]);
    CHECK(groups.of[8] != groups.of[0]);
    CHECK(groups.of[8] != groups.of[4]);
}

TEST_CASE("a drawn cell under a line is no sign beside a line that was missed") {
    const Sheet sheet = cellsWith(12, 1, [](cv::Mat& picture, int column, const cv::Point& corner) {
        if (column < 9) {
            fill(picture, corner, {9, 9, 20, 18}, kDark);
        }
        if (column >= 5 && column < 9) {
            fill(picture, corner, {0, 33, 40, 7}, kDark);
        }
    });
    cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    mask(cv::Rect(7 * kCellSide, 32, 2 * kCellSide, 8)).setTo(255);
    std::vector<char> masked(12, 0);
    masked[7] = masked[8] = 1;
    const auto told = drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.of[7] == told->groups.of[0]);
    CHECK(told->groups.of[8] == told->groups.of[0]);
}

TEST_CASE("nothing of a line is left in a drawn cell, though it covers a third of it") {
    const Sheet sheet = cellsWith(9, 6, [](cv::Mat& picture, int column, const cv::Point& corner) {
        fill(picture, corner, {3, 5, 30, 30},
             corner.y % 80 == 0 ? cv::Scalar(200, 120, 60) : cv::Scalar(60, 120, 200));
        if (column == 4) {
            fill(picture, corner, {27, 0, 13, 40}, cv::Scalar::all(64));
        }
    });
    const std::vector<DrawnCell> cells = drawnCells(std::span(&sheet, 1));
    CHECK(cells[4].inner.br().x <= 27);
    CHECK(cells[4].inner.br().x >= 24);
    CHECK(cells[3].inner.br().x >= 34);
}
