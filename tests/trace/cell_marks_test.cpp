#include "trace/detail/bare_cells.h"
#include "trace/detail/cell_marks.h"

#include <catch2/catch.hpp>

#include <opencv2/imgproc.hpp>

using namespace otherskein;

TEST_CASE("a pale sign without a sharp edge is none of paper where very many cells have it") {
    trace::detail::Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 20;
    sheet.rows = 20;
    sheet.straight = cv::Mat(480, 480, CV_8UC3, cv::Scalar::all(250));
    trace::detail::Groups groups;
    groups.count = 2;
    groups.confidence.assign(400, 1);
    for (int i = 0; i < 400; ++i) {
        const cv::Rect box = sheet.box(i % 20, i / 20);
        const bool isPale = i % 5 != 0;
        groups.of.push_back(isPale ? 0 : 1);
        const cv::Rect sign(box.x + 8, box.y + 8, 8, 8);
        sheet.straight(sign).setTo(cv::Scalar::all(isPale ? 190 : 60));
    }
    cv::GaussianBlur(sheet.straight, sheet.straight, {}, 3);
    const cv::Mat looks = trace::detail::looksOf(sheet);
    auto groupLooks = trace::detail::groupLooks(looks, groups);
    REQUIRE_FALSE(trace::detail::hasEdge(groupLooks[0].mean.ptr<float>()));
    const trace::detail::LookGrid grid{0, 20, 20};
    trace::detail::markBare(looks, std::span(&grid, 1), groups, groupLooks);
    CHECK_FALSE(groupLooks[0].isBare);
    CHECK_FALSE(groupLooks[1].isBare);
}
