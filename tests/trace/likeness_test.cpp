#include "trace/detail/likeness.h"

#include "trace/detail/print_noise.h"
#include "trace/detail/views.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <array>

using namespace otherskein;
using namespace otherskein::trace::detail;

namespace {

/// Pictures of a page whose cells fall anywhere between pixels; the grid as it was drawn.
Pictures picturesOfDrawn(const DrawnPage& drawn) {
    const trace::Page page = drawn.page();
    const std::array pieces{trace::Piece{0, drawnGrid(drawn), {}}};
    const std::vector<Sheet> sheets = sheetsOf(std::span(&page, 1), pieces);
    return picturesOf(sheets);
}

std::vector<Group> byKind(const DrawnPage& drawn, int kinds) {
    std::vector<Group> groups(static_cast<std::size_t>(kinds));
    for (int row = 0; row < drawn.rows; ++row) {
        for (int column = 0; column < drawn.columns; ++column) {
            if (const int kind = kindAt(column, row, kinds); kind >= 0) {
                groups[static_cast<std::size_t>(kind)].members.push_back(row * drawn.columns +
                                                                         column);
            }
        }
    }
    return groups;
}

DrawnPage shapesAt(double pitch) {
    DrawnPage drawn;
    drawn.pitch = pitch;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 5); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    return drawn;
}

} // namespace

TEST_CASE(
    "cells of one shape are like its mean wherever they fall on pixels, other shapes are not") {
    const DrawnPage drawn = shapesAt(GENERATE(19.37, 27.3, 31.61));
    CAPTURE(drawn.pitch);
    const Pictures pictures = picturesOfDrawn(drawn);
    const std::vector<Group> groups = byKind(drawn, 5);
    const PrintNoise noise = printNoiseOf(groups, pictures);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const Likeness likeness(meanOf(groups[g].members, pictures.rows), pictures.side, noise, 1);
        double worst = 0;
        double best = 1e30;
        for (std::size_t other = 0; other < groups.size(); ++other) {
            for (const int i : groups[other].members) {
                const Unlikeness one = likeness.unlikeness(pictures.rows.row(i))[0];
                const double all = one.rest * pictures.rows.cols + one.moved;
                (other == g ? worst : best) =
                    other == g ? std::max(worst, all) : std::min(best, all);
            }
        }
        CAPTURE(g, worst, best);
        CHECK(2 * worst < best);
    }
}

TEST_CASE("what is seen of a cell says the same as the whole") {
    const DrawnPage drawn = shapesAt(27.3);
    const Pictures pictures = picturesOfDrawn(drawn);
    const std::vector<Group> groups = byKind(drawn, 5);
    const PrintNoise noise = printNoiseOf(groups, pictures);
    const Likeness likeness(meanOf(groups[0].members, pictures.rows), pictures.side, noise, 1);
    cv::Mat seen(1, pictures.rows.cols, CV_32F, cv::Scalar(1));
    const cv::Mat row = pictures.rows.row(groups[1].members[0]);
    const Unlikeness whole = likeness.unlikeness(row)[0];
    const Unlikeness same = likeness.unlikenessSeen(row, seen);
    CHECK(same.moved == Approx(whole.moved).epsilon(0.01));
    // The open circle against the filled one: hide the middle, and they are much alike.
    for (int y = 0; y < pictures.side; ++y) {
        for (int x = 0; x < pictures.side; ++x) {
            const int from = std::min({x, y, pictures.side - 1 - x, pictures.side - 1 - y});
            seen.at<float>(y * pictures.side + x) = 4 * from > pictures.side ? 0.0F : 1.0F;
        }
    }
    seen.colRange(pictures.lights(), seen.cols).setTo(0);
    const Unlikeness rim = likeness.unlikenessSeen(row, seen);
    CHECK(rim.rest + rim.moved < (whole.rest + whole.moved) / 3);
}

TEST_CASE("a coloured line that reaches in at a side makes no other symbol of one on paper") {
    const int side = 22;
    const int lights = side * side;
    cv::Mat mean = cv::Mat::zeros(1, lights + 2 * kPictureTints * kPictureTints, CV_32F);
    for (int y = 7; y < 15; ++y) {
        for (int x = 7; x < 15; ++x) {
            mean.at<float>(y * side + x) = -150;
        }
    }
    cv::Mat beside = mean.clone();
    cv::Mat within = mean.clone();
    for (int along = 0; along < kPictureTints; ++along) {
        beside.at<float>(lights + 2 * (along * kPictureTints + kPictureTints - 1) + 1) = 24;
        within.at<float>(lights + 2 * (along * kPictureTints + 1) + 1) = 24;
    }
    const PrintNoise scanned;
    const Likeness likeness(mean, side, scanned, 0.1);
    CHECK(likeness.unlikeness(beside)[0].rest < 2);
    // A bold red line on a blue ground is more.
    const Unlikeness bold = likeness.unlikeness(mean + 3 * (beside - mean))[0];
    CHECK((bold.rest < 2 && bold.moved < 45));
    CHECK(likeness.unlikeness(within)[0].rest > 4);
    PrintNoise drawn;
    drawn.isDrawn = true;
    CHECK(Likeness(mean, side, drawn, 0.1).unlikeness(beside)[0].rest < 2);
    // What a drawn ground in a colour has at its sides may be its own.
    cv::Mat ground = cv::Mat::zeros(mean.size(), CV_32F);
    ground.colRange(lights, ground.cols).setTo(30);
    CHECK(Likeness(mean + ground, side, drawn, 0.1).unlikeness(beside + ground)[0].rest > 4);
    // Nor of a bare cell, whose marks are to be seen.
    const cv::Mat bare = cv::Mat::zeros(mean.size(), CV_32F);
    CHECK(Likeness(bare, side, scanned, 0.1).unlikeness(beside - mean)[0].rest > 4);
}

TEST_CASE("a large symbol beside coloured lines is itself, on another ground it is not") {
    const int side = 15;
    const int lights = side * side;
    cv::Mat mean = cv::Mat::zeros(1, lights + 2 * kPictureTints * kPictureTints, CV_32F);
    for (int y = 3; y < 12; ++y) {
        for (int x = 3; x < 12; ++x) {
            mean.at<float>(y * side + x) = -220;
        }
    }
    PrintNoise noise;
    noise.tint = 0.9;
    cv::Mat beside = mean.clone();
    cv::Mat ground = mean.clone();
    for (int y = 0; y < kPictureTints; ++y) {
        for (int x = 0; x < kPictureTints; ++x) {
            const int at = lights + 2 * (y * kPictureTints + x) + 1;
            beside.at<float>(at) = y == 0 || x == 0 ? 20 : 0;
            // The symbol hides its ground in the middle.
            ground.at<float>(at) = std::min(x, y) == 0 || std::max(x, y) == 3 ? 16 : 0;
        }
    }
    const Likeness likeness(mean, side, noise, 0.1);
    const std::vector<Unlikeness> both{likeness.unlikeness(beside)[0],
                                       likeness.unlikeness(ground)[0]};
    CAPTURE(both[0].rest, both[0].moved, both[1].rest, both[1].moved);
    CHECK((both[0].rest < 2 && both[0].moved < 40));
    CHECK((both[1].rest > 5 || both[1].moved > 100));
}
