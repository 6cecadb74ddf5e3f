// Drawn cells under lines, beside knots, and what of a sheet lines cover.
#include "drawn_sheet.h"
#include "traced_page.h"

#include "trace/detail/drawn_groups.h"
#include "trace/detail/drawn_hidden.h"

#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

using namespace otherskein;

TEST_CASE("a drawn cell under a line is what is seen of it") {
    const trace::detail::Sheet sheet = sheetWith(9, [](QPainter& painter, int i) {
        painter.setPen(QPen(Qt::black, 3));
        if (i % 2 == 0) {
            painter.drawEllipse(QRectF(11, 11, 18, 18));
        } else {
            painter.drawRect(QRectF(11, 11, 18, 18));
        }
        if (i == 8) {
            painter.setPen(QPen(Qt::red, 4));
            painter.drawLine(0, 0, 40, 40);
        }
    });
    cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    cv::line(mask, {320, 0}, {360, 40}, cv::Scalar(255), 7);
    std::vector<char> masked(9, 0);
    masked[8] = 1;
    const auto told =
        trace::detail::drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.count == 2);
    CHECK(told->groups.of[8] == told->groups.of[0]);
    CHECK(told->groups.of[1] != told->groups.of[0]);
    CHECK(told->groups.confidence[8] >= trace::kDoubtful);
}

TEST_CASE("a drawn cell that a line hides wholly is as those around it, and doubtful") {
    constexpr int kColumns = 16;
    const trace::detail::Sheet sheet = sheetWith(kColumns, [](QPainter& painter, int i) {
        if (i < 8) {
            painter.setBrush(Qt::black);
            painter.drawEllipse(QRectF(18, 18, 4, 4));
        }
        if (i == 3 || i == 12) {
            painter.setPen(QPen(Qt::red, 8));
            painter.drawLine(0, 0, 40, 40);
        }
    });
    cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    std::vector<char> masked(kColumns, 0);
    for (const int i : {3, 12}) {
        cv::line(mask, {40 * i, 0}, {40 * (i + 1), 40}, cv::Scalar(255), 11);
        masked[static_cast<std::size_t>(i)] = 1;
    }
    const auto told =
        trace::detail::drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.of[3] == told->groups.of[2]);
    CHECK(told->groups.of[12] == told->groups.of[13]);
    CHECK(told->groups.of[3] != told->groups.of[12]);
    CHECK(told->groups.confidence[3] < trace::kDoubtful);
    CHECK(told->groups.confidence[12] < trace::kDoubtful);
}

TEST_CASE("a drawn cell under a line is told by the very pixels from one with a slight mark") {
    constexpr int kColumns = 16;
    const trace::detail::Sheet sheet = sheetWith(kColumns, [](QPainter& painter, int i) {
        if (i < 8) {
            painter.setPen(QPen(Qt::black, 1));
            painter.drawLine(QPointF(18.5, 16), QPointF(18.5, 20));
            painter.drawLine(QPointF(22.5, 16), QPointF(22.5, 20));
        }
        if (i == 7 || i == 8) {
            painter.setPen(QPen(Qt::red, 8));
            painter.drawLine(0, 40, 40, 40);
        }
    });
    cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    std::vector<char> masked(kColumns, 0);
    for (const int i : {7, 8}) {
        cv::line(mask, {40 * i, 40}, {40 * (i + 1), 40}, cv::Scalar(255), 11);
        masked[static_cast<std::size_t>(i)] = 1;
    }
    const auto told =
        trace::detail::drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.of[7] == told->groups.of[0]);
    CHECK(told->groups.of[8] == told->groups.of[15]);
    CHECK(told->groups.of[0] != told->groups.of[15]);
    CHECK(told->groups.confidence[7] >= trace::kDoubtful);
    CHECK(told->groups.confidence[8] >= trace::kDoubtful);
}

TEST_CASE("drawn cells under lines that are like no other are symbols of their own") {
    const trace::detail::Sheet sheet = sheetWith(9, [](QPainter& painter, int i) {
        if (i >= 6) {
            painter.fillRect(QRectF(0, 0, 40, 40), i == 8 ? Qt::green : Qt::yellow);
            painter.setPen(QPen(Qt::red, 4));
            painter.drawLine(0, 0, 40, 40);
        }
    });
    cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    std::vector<char> masked(9, 0);
    for (int i = 6; i < 9; ++i) {
        cv::line(mask, {40 * i, 0}, {40 * (i + 1), 40}, cv::Scalar(255), 7);
        masked[static_cast<std::size_t>(i)] = 1;
    }
    const auto told =
        trace::detail::drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.count == 3);
    CHECK(told->groups.of[6] == told->groups.of[7]);
    CHECK(told->groups.of[6] != told->groups.of[0]);
    CHECK(told->groups.of[8] != told->groups.of[6]);
    CHECK(told->groups.of[8] != told->groups.of[0]);
    CHECK(told->groups.confidence[6] < trace::kDoubtful);
}

TEST_CASE("a sign that stands only between lines is a symbol, however like it another is") {
    const trace::detail::Sheet sheet = sheetWith(9, [](QPainter& painter, int i) {
        painter.setPen(QPen(Qt::black, 3));
        painter.drawLine(12, 8, 12, 32);
        painter.drawLine(12, 20, i < 6 ? 4 : 12, 20);
        painter.drawLine(12, 20, i < 6 ? 12 : 30, 32);
        painter.drawLine(12, 20, i < 6 ? 30 : 30, 8);
    });
    const cv::Mat mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    std::vector<char> masked(9, 0);
    std::fill(masked.begin() + 6, masked.end(), 1); // lines run along them
    const auto told =
        trace::detail::drawnGroupsOf(std::span(&sheet, 1), masked, std::span(&mask, 1));
    REQUIRE(told);
    CHECK(told->groups.count == 2);
    CHECK(told->groups.of[6] == told->groups.of[8]);
    CHECK(told->groups.of[6] != told->groups.of[0]);
    CHECK(told->groups.confidence[6] < trace::kDoubtful);
}

TEST_CASE("of a drawn sheet no more is covered than a line's own colour reaches") {
    trace::detail::Sheet sheet = sheetWith(9, [](QPainter& painter, int i) {
        if (i < 4) {
            painter.fillRect(QRectF(0, 16, 40, 6), Qt::red);
        }
    });
    trace::detail::Backstitch lines;
    lines.lines = {{0, 1, 8, 1, 0}};
    lines.colours = {{255, 0, 0}};
    lines.mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    lines.mask(cv::Rect(0, 8, 160, 24)).setTo(255);
    const cv::Mat mask = trace::detail::drawnMaskOf(sheet, lines);
    CHECK(mask.at<uchar>(18, 80) == 255);
    CHECK(mask.at<uchar>(12, 80) == 0);
    CHECK(mask.at<uchar>(27, 80) == 0);
    // A dashed line's own colour does not say where it ends.
    sheet.straight(cv::Rect(20, 10, 100, 20)).setTo(cv::Scalar::all(255));
    CHECK(trace::detail::drawnMaskOf(sheet, lines).at<uchar>(12, 80) == 255);
}

TEST_CASE("a knot in a line's colour is no part of a drawn cell, a sign in that colour is") {
    const auto sheetOf = [](bool hasSigns) {
        return sheetWith(9, [hasSigns](QPainter& painter, int i) {
            painter.fillRect(QRectF(0, 0, 40, 40), Qt::yellow);
            if (i < 4) {
                painter.fillRect(QRectF(0, 17, 40, 6), Qt::red);
            }
            if (i == 6 || i == 7) {
                painter.setBrush(Qt::red);
                painter.setPen(Qt::NoPen);
                painter.drawEllipse(QPointF(i == 6 ? 40 : 0, 40), 9, 9);
            }
            if (hasSigns && (i == 4 || i == 5 || i == 8)) {
                painter.fillRect(QRectF(16, 16, 8, 8), Qt::red);
            }
        });
    };
    trace::detail::Backstitch lines;
    lines.lines = {{0, 1, 8, 1, 0}};
    lines.colours = {{255, 0, 0}};
    for (const bool hasSigns : {false, true}) {
        const trace::detail::Sheet sheet = sheetOf(hasSigns);
        lines.mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
        lines.mask(cv::Rect(0, 8, 160, 24)).setTo(255);
        cv::Mat mask = trace::detail::drawnMaskOf(sheet, lines);
        std::vector<char> masked{1, 1, 1, 1, 0, 0, 0, 0, 0};
        trace::detail::coverStrays(sheet, lines, mask, masked);
        CHECK(masked[5] == 0);
        CHECK((masked[6] != 0) == !hasSigns);
        CHECK((mask.at<uchar>(38, 278) == 255) == !hasSigns);
    }
}
