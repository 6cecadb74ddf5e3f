#include "trace/detail/even_light.h"
#include "trace/detail/even_light_stains.h"

#include <catch2/catch.hpp>

#include <opencv2/imgproc.hpp>

#include <cmath>

using namespace otherskein::trace::detail;

namespace {

constexpr int kSide = 20;

/// White paper, each cell as bright as `light` says.
template <typename Light>
Sheet sheetOfLight(int columns, int rows, const Light& light) {
    Sheet sheet;
    sheet.cell = kSide;
    sheet.columns = columns;
    sheet.rows = rows;
    sheet.straight.create(rows * kSide, columns * kSide, CV_8UC3);
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            sheet.straight(sheet.box(column, row)).setTo(cv::Scalar::all(light(column, row)));
        }
    }
    return sheet;
}

double middleOf(const Sheet& sheet, int column, int row) {
    const cv::Rect box = sheet.box(column, row);
    return cv::mean(sheet.straight({box.x + 8, box.y + 8, 4, 4}))[0];
}

} // namespace

TEST_CASE("a shadow across the page becomes white paper") {
    const auto shadow = [](int column, int) {
        return 254 - 60 * std::exp(-std::pow((column - 20) / 6.0, 2));
    };
    Sheet sheet = sheetOfLight(40, 30, shadow);
    evenLight(sheet);
    for (int column = 0; column < 40; ++column) {
        CAPTURE(column);
        CHECK(middleOf(sheet, column, 15) > 250);
    }
}

TEST_CASE("a pale fill is no shadow, on an even page and beside a shadow") {
    const bool isShaded = GENERATE(false, true);
    const auto light = [&](int column, int row) {
        const double shade = isShaded ? 40 * std::exp(-std::pow((column - 30) / 5.0, 2)) : 0;
        const bool isFill = column >= 5 && column < 15 && row >= 5 && row < 25;
        return (isFill ? 240 : 255) - shade;
    };
    Sheet sheet = sheetOfLight(40, 30, light);
    evenLight(sheet);
    CHECK(middleOf(sheet, 10, 15) == Approx(240).margin(2));
    CHECK(middleOf(sheet, 2, 15) > 252);
}

TEST_CASE("an even sheet stays as it is") {
    Sheet sheet = sheetOfLight(
        20, 20, [](int column, int row) { return (column + row) % 3 == 0 ? 120 : 254; });
    const cv::Mat before = sheet.straight.clone();
    evenLight(sheet);
    CHECK(cv::norm(before, sheet.straight, cv::NORM_INF) == 0);
}

TEST_CASE("faint symbols that hide their ground are no stain, a tint between them is") {
    const bool isStain = GENERATE(false, true);
    Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 12;
    sheet.rows = 12;
    sheet.straight = cv::Mat(288, 288, CV_8UC3, cv::Scalar::all(255));
    cv::Mat grounds(12, 12, CV_32FC3, cv::Scalar::all(255));
    cv::Mat isPaper(12, 12, CV_8U, cv::Scalar(1));
    const cv::Rect lot(3, 3, 6, 6);
    grounds(lot).setTo(cv::Scalar::all(240));
    isPaper(lot).setTo(0);
    if (isStain) {
        sheet.straight(cv::Rect(80, 80, 128, 128)).setTo(cv::Scalar::all(240));
    }
    for (int row = 0; row < 12; ++row) {
        for (int column = 0; column < 12; ++column) {
            const cv::Rect box = sheet.box(column, row);
            if (!isStain && lot.contains({column, row})) {
                sheet.straight(cv::Rect(box.x + 7, box.y + 3, 10, 18)).setTo(cv::Scalar::all(205));
            }
            sheet.straight(cv::Rect(box.x, box.y, 24, 1)).setTo(cv::Scalar::all(205));
            sheet.straight(cv::Rect(box.x, box.y, 1, 24)).setTo(cv::Scalar::all(205));
        }
    }
    cv::GaussianBlur(sheet.straight, sheet.straight, {}, 1.5);
    const cv::Mat stained = stainedCells(sheet, grounds, isPaper);
    CHECK((cv::countNonZero(stained) > 0) == isStain);
}
