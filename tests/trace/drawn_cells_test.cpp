#include "trace/detail/drawn_cells.h"

#include <catch2/catch.hpp>

using namespace otherskein::trace::detail;

TEST_CASE("a tee is no bar that was moved until its upright is out of sight") {
    const auto drawn = [](bool isTee) {
        cv::Mat picture(40, 40, CV_8UC3, cv::Scalar::all(255));
        picture(cv::Rect(0, 18, 40, 4)).setTo(cv::Scalar::all(0));
        if (isTee) {
            picture(cv::Rect(4, 8, 2, 24)).setTo(cv::Scalar::all(0));
        }
        return DrawnCell{picture, cv::Rect(4, 4, 32, 32)};
    };
    CHECK_FALSE(DrawnShape(drawn(false)).isSame(drawn(true)));
    CHECK_FALSE(DrawnShape(drawn(true)).isSame(drawn(false)));
    CHECK(DrawnShape(drawn(true)).isSame(drawn(true)));
}

TEST_CASE("a pale square with white lines around it is told from paper and from a fill without") {
    const auto drawn = [](const cv::Rect& square, int grey) {
        cv::Mat picture(40, 40, CV_8UC3, cv::Scalar::all(255));
        picture(square).setTo(cv::Scalar::all(grey));
        return DrawnShape(DrawnCell{picture, cv::Rect(6, 6, 28, 28)});
    };
    CHECK(drawn({2, 2, 36, 36}, 230).isSquare());
    CHECK(drawn({0, 2, 38, 36}, 120).isSquare()); // a bold line of another colour may lie at a side
    CHECK_FALSE(drawn({0, 0, 40, 40}, 230).isSquare());
    CHECK_FALSE(drawn({0, 2, 40, 36}, 230).isSquare());
    CHECK_FALSE(drawn({2, 2, 36, 36}, 255).isSquare());
}

TEST_CASE("looking at a sheet's cells leaves a square sheet as it is") {
    Sheet sheet;
    sheet.cell = 40;
    sheet.columns = 4;
    sheet.rows = 4;
    sheet.straight = cv::Mat(160, 160, CV_8UC3, cv::Scalar::all(255));
    sheet.straight(cv::Rect(50, 10, 20, 20)).setTo(cv::Scalar::all(0)); // of column 1, row 0
    const cv::Mat before = sheet.straight.clone();
    const std::vector<DrawnCell> cells = drawnCells(std::span(&sheet, 1));
    CHECK(cv::norm(sheet.straight, before, cv::NORM_INF) == 0);
    CHECK(cells[1].picture.at<cv::Vec3b>(20, 20) == cv::Vec3b(0, 0, 0));
}
