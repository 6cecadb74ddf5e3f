#include "trace/detail/plain_colours.h"

#include "trace/detail/likeness.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <functional>
#include <vector>

using namespace otherskein::trace::detail;

namespace {

constexpr int kPatchSide = 12;

/// How much of the patch is seen at a place, 0 to 1; `x` and `y` from 0 to kPatchSide − 1.
using Seen = std::function<double(int x, int y)>;

cv::Mat patchOf(double light, double blue, double red, const Seen& seen) {
    cv::Mat row(1, kPatchSide * kPatchSide + 2 * kPictureTints * kPictureTints, CV_32F);
    constexpr int kTintOver = kPatchSide / kPictureTints;
    cv::Mat shown = cv::Mat::zeros(kPictureTints, kPictureTints, CV_32F);
    for (int y = 0; y < kPatchSide; ++y) {
        for (int x = 0; x < kPatchSide; ++x) {
            const auto share = static_cast<float>(seen(x, y));
            row.at<float>(y * kPatchSide + x) = static_cast<float>(light) * share;
            shown.at<float>(y / kTintOver, x / kTintOver) += share / (kTintOver * kTintOver);
        }
    }
    for (int i = 0; i < kPictureTints * kPictureTints; ++i) {
        const float share = shown.at<float>(i / kPictureTints, i % kPictureTints);
        row.at<float>(kPatchSide * kPatchSide + 2 * i) = static_cast<float>(blue) * share;
        row.at<float>(kPatchSide * kPatchSide + 2 * i + 1) = static_cast<float>(red) * share;
    }
    return row;
}

/// Lines of paper at the four sides: top, bottom, left, right; px.
Seen linesOf(std::array<double, 4> widths) {
    return [widths](int x, int y) {
        const int last = kPatchSide - 1;
        double share = 1;
        for (const auto& [depth, width] : {std::pair(y, widths[0]),
                                           {last - y, widths[1]},
                                           {x, widths[2]},
                                           {last - x, widths[3]}}) {
            share = std::min(share, 1 - std::clamp(width - depth, 0.0, 1.0));
        }
        return share;
    };
}

const Seen kWhole = linesOf({0, 0, 0, 0});

} // namespace

TEST_CASE("a plain colour is one whatever lines of paper leave of it") {
    const cv::Mat whole = patchOf(-150, 60, 30, kWhole);
    CHECK(areOneColour(whole, patchOf(-150, 60, 30, linesOf({1.6, 0, 0, 0})), kPatchSide));
    CHECK(areOneColour(whole, patchOf(-150, 60, 30, linesOf({0, 2, 1.4, 0})), kPatchSide));
    CHECK(areOneColour(whole, patchOf(-150, 60, 30, linesOf({0.3, 0.3, 0.3, 0.3})), kPatchSide));
    CHECK(areOneColour(patchOf(-150, 60, 30, linesOf({0.8, 0, 1.8, 0})),
                       patchOf(-150, 60, 30, linesOf({0, 0.8, 0, 0.2})), kPatchSide));
}

TEST_CASE("a plain colour is one beside lines of any colour") {
    const cv::Mat whole = patchOf(-90, -60, 30, kWhole);
    // Dark blue, in the outermost px of a side and of two that meet.
    const auto beside = [&](std::vector<int> sides) {
        cv::Mat row = whole.clone();
        for (const int side : sides) {
            for (int i = 0; i < kPatchSide; ++i) {
                row.at<float>(side == 0 ? i : i * kPatchSide) = -140;
            }
            for (int i = 0; i < kPictureTints; ++i) {
                const int at = side == 0 ? i : i * kPictureTints;
                row.at<float>(kPatchSide * kPatchSide + 2 * at) += 70;
                row.at<float>(kPatchSide * kPatchSide + 2 * at + 1) -= 40;
            }
        }
        return row;
    };
    CHECK(areOneColour(whole, beside({0}), kPatchSide));
    CHECK(areOneColour(beside({0}), beside({1}), kPatchSide));
    // Tint of its own in the middle is no line's.
    cv::Mat tinted = whole.clone();
    tinted.at<float>(kPatchSide * kPatchSide + 2 * (kPictureTints + 1)) += 10;
    CHECK_FALSE(areOneColour(whole, tinted, kPatchSide));
}

TEST_CASE("plain colours that differ a little are two") {
    const cv::Mat whole = patchOf(-150, 60, 30, kWhole);
    CHECK_FALSE(areOneColour(whole, patchOf(-153, 60, 30, kWhole), kPatchSide));
    CHECK_FALSE(areOneColour(whole, patchOf(-150, 63, 30, kWhole), kPatchSide));
    CHECK_FALSE(areOneColour(whole, patchOf(-150, 60, 27, kWhole), kPatchSide));
}

TEST_CASE("what is drawn in a patch is no line beside it") {
    const cv::Mat whole = patchOf(-150, 60, 30, kWhole);
    const auto isTaken = [&](const Seen& seen) {
        return areOneColour(whole, patchOf(-150, 60, 30, seen), kPatchSide);
    };
    const int last = kPatchSide - 1;
    // A frame along all sides, and one a little within.
    CHECK_FALSE(isTaken(linesOf({1, 1, 1, 1})));
    CHECK_FALSE(isTaken([&](int x, int y) {
        return std::min({x, y, last - x, last - y}) == 1 ? 0.0 : 1.0;
    }));
    // A bar within a side, half of a side, a dot.
    CHECK_FALSE(isTaken([](int, int y) { return y == 1 ? 0.2 : 1.0; }));
    CHECK_FALSE(isTaken([](int x, int y) { return y == 0 && x < 6 ? 0.2 : 1.0; }));
    CHECK_FALSE(isTaken([](int x, int y) { return x == 5 && y == 5 ? 0.5 : 1.0; }));
    // A dark bar along a side, thicker than what lines leave.
    CHECK_FALSE(isTaken([](int, int y) { return y <= 2 ? 1.3 : 1.0; }));
    // A dark frame.
    CHECK_FALSE(isTaken([&](int x, int y) {
        return std::min({x, y, last - x, last - y}) == 0 ? 1.6 : 1.0;
    }));
    // And paper is no patch.
    const cv::Mat paper = patchOf(0, 0, 0, kWhole);
    CHECK_FALSE(areOneColour(paper, paper, kPatchSide));
}
