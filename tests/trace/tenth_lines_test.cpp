#include "trace/detail/lattice_frame.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <QPainter>
#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

#include <vector>

using namespace otherskein;

namespace {

constexpr int kColumns = 77;
constexpr int kRows = 73;
constexpr double kCell = 21;
constexpr double kLeft = 200;
constexpr double kTop = 150;

/// A sign in every cell, no lines but every tenth and the frame, ticks outside it, a key below.
trace::Page tickedPage() {
    QImage picture(2050, 2100, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    const double right = kLeft + kColumns * kCell;
    const double bottom = kTop + kRows * kCell;
    for (int row = 0; row < kRows; ++row) {
        for (int column = 0; column < kColumns; ++column) {
            painter.save();
            painter.translate(kLeft + column * kCell, kTop + row * kCell);
            painter.setPen(QPen(Qt::black, 1.6));
            if ((column / 5 + row / 5) % 2 == 0) {
                painter.drawLine(QPointF(4, 4), QPointF(4, 17));
                painter.drawLine(QPointF(4, 10.5), QPointF(17, 10.5));
            } else {
                painter.drawArc(QRectF(6, 3, 9, 7.5), 30 * 16, 240 * 16);
                painter.drawArc(QRectF(6, 10.5, 9, 7.5), -150 * 16, 240 * 16);
            }
            painter.restore();
        }
    }
    for (int i = 0; i <= kColumns; ++i) {
        const double x = kLeft + i * kCell;
        const bool isDrawn = i % 10 == 0 || i == kColumns;
        painter.setPen(QPen(Qt::black, isDrawn ? 2.5 : 1));
        painter.drawLine(QPointF(x, kTop - 12), QPointF(x, isDrawn ? bottom + 12 : kTop));
        painter.drawLine(QPointF(x, bottom), QPointF(x, bottom + 12));
    }
    for (int i = 0; i <= kRows; ++i) {
        const double y = kTop + i * kCell;
        const bool isDrawn = i % 10 == 0 || i == kRows;
        painter.setPen(QPen(Qt::black, isDrawn ? 2.5 : 1));
        painter.drawLine(QPointF(kLeft - 12, y), QPointF(isDrawn ? right + 12 : kLeft, y));
        painter.drawLine(QPointF(right, y), QPointF(right + 12, y));
    }
    painter.setPen(QPen(Qt::black, 2));
    for (int i = 0; i < 8; ++i) {
        painter.drawLine(QPointF(80, bottom + 90 + i * kCell),
                         QPointF(right - 40, bottom + 90 + i * kCell));
    }
    painter.end();
    trace::Page page;
    page.source = QStringLiteral("drawn");
    page.picture = picture.convertToFormat(QImage::Format_BGR888);
    return page;
}

} // namespace

TEST_CASE("Tenth lines and a frame tell a grid whose cells all have signs") {
    const auto grids = trace::gridsOn(tickedPage());
    REQUIRE_FALSE(grids.empty());
    CHECK(grids[0].columns == kColumns);
    CHECK(grids[0].rows == kRows);
}

TEST_CASE("Rows of a key below a chart are none of its frame's lines") {
    using namespace trace::detail;
    const trace::Page page = tickedPage();
    const cv::Mat bgr = viewOf(page.picture);
    Lattice lattice;
    lattice.pitch = kCell;
    lattice.toPage = cv::Matx33d(kCell, 0, kLeft - 0.5, 0, kCell, kTop - 0.5, 0, 0, 1);
    // The ticks were taken for a column of cells.
    const auto frame =
        frameAround(bgr, lineMapsOf(bgr, 4), lattice, {-1, 0, kColumns + 1, kRows}, true);
    REQUIRE(frame);
    CHECK(*frame == cv::Rect(0, 0, kColumns, kRows));
}

TEST_CASE("Lines at every third cell or at all are no tenth lines") {
    using namespace trace::detail;
    const auto areTenths = [](int every) {
        cv::Mat bgr(800, 800, CV_8UC3, cv::Scalar::all(255));
        for (int i = 0; i <= 33; i += every) {
            const int at = 70 + 20 * i;
            cv::line(bgr, {at, 70}, {at, 730}, {}, 2);
            cv::line(bgr, {70, at}, {730, at}, {}, 2);
        }
        cv::rectangle(bgr, cv::Rect(70, 70, 661, 661), {}, 2);
        Lattice lattice;
        lattice.pitch = 20;
        lattice.toPage = cv::Matx33d(20, 0, 70, 0, 20, 70, 0, 0, 1);
        return hasTenthLines(lineMapsOf(bgr, 4), lattice, {0, 0, 33, 33});
    };
    CHECK(areTenths(10));
    CHECK(areTenths(5));
    CHECK_FALSE(areTenths(3));
    CHECK_FALSE(areTenths(1));
}

TEST_CASE("Signs may hide some of the tenth lines, not most") {
    using namespace trace::detail;
    const auto areTenths = [](const std::vector<int>& columns) {
        cv::Mat bgr(600, 1400, CV_8UC3, cv::Scalar::all(255));
        for (const int column : columns) {
            cv::line(bgr, {70 + 20 * column, 70}, {70 + 20 * column, 470}, {}, 2);
        }
        cv::line(bgr, {70, 270}, {1270, 270}, {}, 2);
        cv::rectangle(bgr, cv::Rect(70, 70, 1201, 401), {}, 2);
        Lattice lattice;
        lattice.pitch = 20;
        lattice.toPage = cv::Matx33d(20, 0, 70, 0, 20, 70, 0, 0, 1);
        return hasTenthLines(lineMapsOf(bgr, 4), lattice, {0, 0, 60, 20});
    };
    CHECK(areTenths({10, 20, 30, 40, 50}));
    CHECK(areTenths({20, 40, 50}));
    CHECK_FALSE(areTenths({20, 40}));
    CHECK_FALSE(areTenths({20, 40, 47}));
}
