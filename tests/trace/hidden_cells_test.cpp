#include "trace/detail/groups.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

#include <opencv2/imgproc.hpp>

using namespace otherskein::trace;

namespace {

constexpr int kCellPx = 24;

/// 20 × 10 cells: rings, from the fourth row on paper, and in the last row bars, if any.
detail::Sheet sheetOf(bool hasBars) {
    detail::Sheet sheet;
    sheet.cell = kCellPx;
    sheet.columns = 20;
    sheet.rows = 10;
    sheet.straight = cv::Mat(10 * kCellPx, 20 * kCellPx, CV_8UC3, cv::Scalar::all(255));
    for (int i = 0; i < 200; ++i) {
        const cv::Rect box = sheet.box(i % 20, i / 20);
        if (i < 60 || (i >= 180 && !hasBars)) {
            cv::circle(sheet.straight, (box.tl() + box.br()) / 2, 6, cv::Scalar::all(0), 2);
        } else if (i >= 180) {
            sheet.straight(cv::Rect(box.x + 5, box.y + 10, 14, 5)).setTo(cv::Scalar::all(0));
        }
    }
    cv::GaussianBlur(sheet.straight, sheet.straight, {3, 3}, 0.6);
    return sheet;
}

} // namespace

TEST_CASE("a sign that stands in cells at lines only is a symbol of its own, and doubtful") {
    const bool hasBars = GENERATE(true, false);
    const detail::Sheet sheet = sheetOf(hasBars);
    std::vector<char> masked(200, 0);
    std::fill(masked.begin() + 180, masked.end(), 1);
    const cv::Mat visible(200, detail::kLookSize, CV_32F, cv::Scalar(1));
    const detail::Groups groups = detail::groupsOf(
        detail::looksOf(sheet), detail::picturesOf(std::span(&sheet, 1)), kCellPx, masked, visible);
    CHECK(groups.count == (hasBars ? 3 : 2));
    CHECK(groups.of[180] == groups.of[199]);
    CHECK((groups.of[180] == groups.of[0]) == !hasBars);
    CHECK(groups.of[180] != groups.of[100]);
    CHECK((groups.confidence[180] < kDoubtful) == hasBars);
}
