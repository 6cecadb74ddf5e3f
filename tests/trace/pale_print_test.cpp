#include "trace/detail/pale_print.h"

#include <catch2/catch.hpp>

#include <opencv2/imgproc.hpp>

using namespace otherskein::trace::detail;

namespace {

constexpr int kCellPx = 30;
const cv::Scalar kPale(238, 236, 238);

/// White cells, nothing in them.
Sheet gridSheet() {
    Sheet sheet;
    sheet.cell = kCellPx;
    sheet.columns = 30;
    sheet.rows = 24;
    sheet.straight = cv::Mat(24 * kCellPx, 30 * kCellPx, CV_8UC3, cv::Scalar::all(255));
    return sheet;
}

/// Thin grid lines, and a black square in every so many cells.
void printOver(Sheet& sheet, int every = 7) {
    for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
        const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
        sheet.straight(cv::Rect(box.x, box.y, kCellPx, 1)).setTo(cv::Scalar::all(90));
        sheet.straight(cv::Rect(box.x, box.y, 1, kCellPx)).setTo(cv::Scalar::all(90));
        if (i % every == 0) {
            sheet.straight(cv::Rect(box.x + 9, box.y + 9, 12, 12)).setTo(cv::Scalar::all(0));
        }
    }
}

int paleIn(const Sheet& sheet) {
    cv::Mat isPale;
    cv::inRange(sheet.straight, kPale - cv::Scalar::all(3), kPale + cv::Scalar::all(3), isPale);
    return cv::countNonZero(isPale);
}

} // namespace

TEST_CASE("a pale word under a chart goes, what is printed over it stays") {
    Sheet sheet = gridSheet();
    for (int i = 0; i < 4; ++i) {
        cv::ellipse(sheet.straight, cv::Point(150 + 190 * i, 520 - 110 * i), cv::Size(70, 110), 35,
                    0, 360, kPale, 40, cv::LINE_AA);
    }
    printOver(sheet);
    const cv::Mat before = sheet.straight.clone();
    REQUIRE(paleIn(sheet) > 20000);
    liftPalePrint(sheet);
    CHECK(paleIn(sheet) == 0);
    cv::Mat dark;
    cv::inRange(before, cv::Scalar::all(0), cv::Scalar::all(100), dark);
    cv::Mat changes;
    cv::absdiff(before, sheet.straight, changes);
    changes.setTo(cv::Scalar::all(0), ~dark);
    CHECK(cv::norm(changes, cv::NORM_INF) == 0);
}

TEST_CASE("a pale word goes also where some of its letters end at cells' sides") {
    Sheet sheet = gridSheet();
    for (int i = 0; i < 6; ++i) { // stems that end at a grid line, and bows
        const int x = kCellPx * (2 + 4 * i);
        sheet.straight(cv::Rect(x, 4 * kCellPx, 40, 8 * kCellPx)).setTo(kPale);
        cv::ellipse(sheet.straight, cv::Point(x + 30, 8 * kCellPx),
                    cv::Size(44 + 7 * i, 70 + 11 * i), 0, -90, 90, kPale, 35, cv::LINE_AA);
    }
    printOver(sheet);
    REQUIRE(paleIn(sheet) > 20000);
    liftPalePrint(sheet);
    CHECK(paleIn(sheet) == 0);
}

TEST_CASE("a small pale word goes though every cell over it has a sign") {
    Sheet sheet = gridSheet();
    cv::ellipse(sheet.straight, cv::Point(370, 320), cv::Size(60, 90), 35, 0, 360, kPale, 40,
                cv::LINE_AA);
    printOver(sheet, 1);
    REQUIRE(paleIn(sheet) > 4000);
    liftPalePrint(sheet);
    CHECK(paleIn(sheet) == 0);
}

TEST_CASE("pale signs and fills are no print under the chart") {
    const bool isFill = GENERATE(false, true);
    const int every = GENERATE(7, 1);
    Sheet sheet = gridSheet();
    for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
        const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
        if (isFill && (i / 3 % 4 == 0)) {
            sheet.straight(box).setTo(kPale);
        } else if (!isFill && i % 5 < 2) {
            const std::vector<cv::Point> corner{box.tl(), box.tl() + cv::Point(kCellPx, 0),
                                                box.tl() + cv::Point(0, kCellPx)};
            cv::fillPoly(sheet.straight, std::vector{corner}, kPale, cv::LINE_AA);
        }
    }
    printOver(sheet, every);
    const cv::Mat before = sheet.straight.clone();
    liftPalePrint(sheet);
    CHECK(cv::norm(before, sheet.straight, cv::NORM_INF) == 0);
}
