// Grids of pages that curl at one end.
#include "drawn_page.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace otherskein;

namespace {

/// A page whose last `curled` px to the right are drawn together more and more, as towards a
/// book's spine: the last column comes to lie `most` px off where a flat page has it.
trace::Page curled(const DrawnPage& drawn, double curled, double most) {
    trace::Page page = drawn.page();
    const double end = drawn.left + drawn.pitch * drawn.columns;
    cv::Mat view = trace::detail::viewOf(page.picture);
    cv::Mat from(view.size(), CV_32FC2);
    for (int y = 0; y < view.rows; ++y) {
        for (int x = 0; x < view.cols; ++x) {
            const double in = std::max(0.0, x + most - (end - curled)) / curled;
            from.at<cv::Vec2f>(y, x) = {static_cast<float>(x + most * std::min(1.5, in * in)),
                                        static_cast<float>(y)};
        }
    }
    cv::Mat moved;
    cv::remap(view, moved, from, {}, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    moved.copyTo(view);
    return page;
}

} // namespace

TEST_CASE("the last columns of a page that curls at its spine belong to the grid") {
    DrawnPage drawn;
    drawn.columns = 44;
    drawn.rows = 30;
    drawn.pitch = 20;
    drawn.left = 100;
    drawn.top = 120;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int which = kindAt(column, row, 4); which >= 0) {
            drawShape(painter, which);
        }
    };
    const double most = GENERATE(0.0, 9.0, 14.0);
    const auto grids = trace::gridsOn(curled(drawn, 200, most));
    REQUIRE_FALSE(grids.empty());
    INFO(most);
    CHECK(grids[0].columns == 44);
    CHECK(grids[0].rows == 30);
}
