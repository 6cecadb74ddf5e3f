#include "trace/detail/counted_frame.h"

#include <catch2/catch.hpp>

using namespace otherskein::trace;
using namespace otherskein::trace::detail;

namespace {

constexpr double kFramedCell = 12; // points, and px of the page

/// A frame of cells that no lines part, with a mark in most of them, and numbers above.
struct FramedPage {
    PagePaths page{{600, 400}, {}, {}, {}};
    std::vector<Word> words;

    FramedPage(int columns, int rows, double markWidth = 0.6, const cv::Point2d& off = {}) {
        PaintedPath frame;
        const cv::Point2d from(50, 60);
        const cv::Point2d to = from + cv::Point2d(columns * kFramedCell, rows * kFramedCell);
        const std::vector<cv::Point2d> corners{from, {to.x, from.y}, to, {from.x, to.y}, from};
        for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
            frame.lines.push_back({corners[i], corners[i + 1], 1});
        }
        frame.isClosed = true;
        page.paths.push_back(frame);
        for (int i = 0; i < columns * rows; i += 2) {
            const cv::Point2d cell(i % columns + 0.2 + off.x, i / columns + 0.3 + off.y);
            page.areas.push_back({{0, i + 1},
                                  {from.x + kFramedCell * cell.x, from.y + kFramedCell * cell.y,
                                   kFramedCell * markWidth, kFramedCell * 0.4}});
        }
    }

    /// Numbers at the middles of their cells, or at the lines behind them.
    void count(bool areAtCells) {
        for (int n = 5; n <= 20; n += 5) {
            const double at = 50 + kFramedCell * (areAtCells ? n - 0.5 : n);
            words.push_back({QRectF(at - 4, 44, 8, 8), QString::number(n)});
        }
    }
};

} // namespace

TEST_CASE("a frame that numbers count is a grid, though no lines part its cells") {
    FramedPage framed(24, 14);
    framed.count(GENERATE(true, false));
    const auto grid = countedFrame(framed.page, {1, 1}, framed.words);
    REQUIRE(grid);
    CHECK(grid->columns == 24);
    CHECK(grid->rows == 14);
    CHECK(grid->corner(0, 0).x == Approx(49.5)); // pixels' centres are whole numbers
    CHECK(grid->corner(24, 14).y == Approx(60 + 14 * kFramedCell - 0.5));
}

TEST_CASE("symbols that are text tell a counted frame where they begin in rows at its step") {
    FramedPage framed(24, 14);
    framed.count(true);
    framed.page.areas.clear();
    const bool isInRows = GENERATE(true, false);
    for (int i = 0; i < 24 * 14; ++i) {
        const double row = isInRows ? i / 24 + 0.8 : i * 14.0 / (24 * 14);
        framed.page.texts.push_back(
            {{0, i}, {50 + kFramedCell * (i % 24 + 0.3), 60 + kFramedCell * row}, 1});
    }
    CHECK(countedFrame(framed.page, {1, 1}, framed.words).has_value() == isInRows);
}

TEST_CASE("a frame is no grid without numbers, or where what is in it stands in no cells") {
    FramedPage uncounted(24, 14);
    CHECK_FALSE(countedFrame(uncounted.page, {1, 1}, uncounted.words));
    FramedPage across(24, 14, 0.6, {0.5, 0}); // marks over the sides of cells
    across.count(true);
    CHECK_FALSE(countedFrame(across.page, {1, 1}, across.words));
    FramedPage few(24, 14);
    few.page.areas.resize(20);
    few.count(true);
    CHECK_FALSE(countedFrame(few.page, {1, 1}, few.words));
}
