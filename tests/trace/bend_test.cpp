#include "trace/detail/bend.h"

#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace otherskein::trace::detail;

namespace {

constexpr int kCell = 24;
constexpr int kColumns = 60;
constexpr int kRows = 48;
constexpr int kMargin = 60;

/// Lines every kCell px, moved along y as a curled page moves them; `curl` is the most, in px.
cv::Mat curledPage(double curl) {
    cv::Mat flat(kRows * kCell + 2 * kMargin, kColumns * kCell + 2 * kMargin, CV_8UC3,
                 cv::Scalar::all(250));
    for (int i = 0; i <= kColumns; ++i) {
        const int at = kMargin + i * kCell;
        cv::line(flat, {at, kMargin}, {at, kMargin + kRows * kCell}, cv::Scalar::all(90));
    }
    for (int i = 0; i <= kRows; ++i) {
        const int at = kMargin + i * kCell;
        cv::line(flat, {kMargin, at}, {kMargin + kColumns * kCell, at}, cv::Scalar::all(90));
    }
    cv::Mat from(flat.size(), CV_32FC2);
    for (int y = 0; y < flat.rows; ++y) {
        for (int x = 0; x < flat.cols; ++x) {
            const double off = curl * std::sin(2 * std::numbers::pi * x / flat.cols);
            from.at<cv::Vec2f>(y, x) = {static_cast<float>(x), static_cast<float>(y - off)};
        }
    }
    cv::Mat page;
    cv::remap(flat, page, from, {}, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    return page;
}

Lattice flatLattice() {
    Lattice lattice;
    lattice.toPage = cv::Matx33d(kCell, 0, kMargin, 0, kCell, kMargin, 0, 0, 1);
    lattice.columns = kColumns;
    lattice.rows = kRows;
    lattice.pitch = kCell;
    return lattice;
}

} // namespace

TEST_CASE("A curled page's cells are put where its lines are") {
    constexpr double kCurl = 4;
    const cv::Mat page = curledPage(kCurl);
    const Lattice lattice = flatLattice();
    const cv::Mat straight = straightened(page, lattice, kCell, {0, 0, kColumns, kRows});
    const Bend bend = bendOf(straight, kCell);
    REQUIRE(bend.offsets.size() == cv::Size(kColumns + 1, kRows + 1));
    const double width = kColumns * kCell + 2 * kMargin;
    for (int column = 4; column < kColumns - 3; ++column) {
        const double place = kMargin + column * kCell;
        const double curl = kCurl * std::sin(2 * std::numbers::pi * place / width);
        const cv::Vec2f off = bend.offsets.at<cv::Vec2f>(kRows / 2, column);
        CAPTURE(column);
        CHECK(std::abs(static_cast<double>(off[0]) * kCell) < 0.5);
        CHECK(std::abs(static_cast<double>(off[1]) * kCell - curl) < 1.5);
    }
    CHECK(bendOf(unbent(page, lattice, kCell, bend), kCell).offsets.empty());
}

TEST_CASE("A flat page has no bend") {
    const cv::Mat page = curledPage(0);
    const cv::Mat straight = straightened(page, flatLattice(), kCell, {0, 0, kColumns, kRows});
    CHECK(bendOf(straight, kCell).offsets.empty());
}
