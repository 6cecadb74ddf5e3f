// What numbers along a chart's edges tell: where the grid lies if it prints no lines, and what of
// its cells they cover.
#include "trace/detail/number_cover.h"
#include "trace/detail/number_series.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

#include <QPainter>

using namespace otherskein;

namespace {

constexpr double kPitch = 31.4;
constexpr double kLeft = 210.3;
constexpr double kTop = 180.7;
constexpr int kColumnsWide = 37;
constexpr int kRowsHigh = 26;

trace::Word numberAt(double x, double y, int number) {
    const QString text = QString::number(number);
    const double width = 12 * static_cast<double>(text.size());
    return {QRectF(x - width / 2, y - 9, width, 18), text};
}

/// Numbers every five along the top and the left, at the lines behind their cells.
std::vector<trace::Word> edgeNumbers() {
    std::vector<trace::Word> words;
    for (int n = 5; n <= kColumnsWide; n += 5) {
        words.push_back(numberAt(kLeft + n * kPitch, kTop - 30, n));
    }
    for (int n = 5; n <= kRowsHigh; n += 5) {
        words.push_back(numberAt(kLeft - 40, kTop + n * kPitch, n));
    }
    return words;
}

/// A chart without lines, of three signs and bare cells.
trace::Page unlinedChart(std::vector<trace::Word> words) {
    QImage picture(1600, 1200, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int row = 0; row < kRowsHigh; ++row) {
        for (int column = 0; column < kColumnsWide; ++column) {
            const int kind = (column / 3 + row / 2) % 4;
            const QRectF cell(kLeft + column * kPitch, kTop + row * kPitch, kPitch, kPitch);
            painter.setPen(QPen(Qt::black, 2.5));
            if (kind == 0) {
                painter.drawEllipse(cell.adjusted(7, 7, -7, -7));
            } else if (kind == 1) {
                painter.fillRect(cell.adjusted(8, 8, -8, -8), Qt::black);
            } else if (kind == 2) {
                painter.drawLine(cell.center() - QPointF(7, 7), cell.center() + QPointF(7, 7));
            }
        }
    }
    painter.end();
    trace::Page page;
    page.source = QStringLiteral("drawn");
    page.picture = picture.convertToFormat(QImage::Format_BGR888);
    page.words = std::move(words);
    return page;
}

} // namespace

TEST_CASE("numbers in a row and as far apart as they count are a series") {
    using trace::detail::numberSeriesOf;
    std::vector<trace::Word> words = edgeNumbers();
    words.push_back(numberAt(700, 700, 12)); // of the page
    words.push_back(numberAt(760, 700, 3));
    words.push_back(numberAt(kLeft + 2 * kPitch, kTop - 30, 41)); // in the row, and of no place
    const auto columns = numberSeriesOf(words, true);
    REQUIRE(columns.size() == 1);
    CHECK(columns[0].pitch == Approx(kPitch).margin(0.01));
    CHECK(columns[0].origin == Approx(kLeft).margin(0.1));
    CHECK(columns[0].first == 5);
    CHECK(columns[0].last == 35);
    CHECK(columns[0].boxes.size() == 7);
    const auto rows = numberSeriesOf(words, false);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].last == 25);
    CHECK(rows[0].across == Approx(kLeft - 40).margin(0.1));
}

TEST_CASE("numbers that grow both ways from a chart's middle are one series") {
    std::vector<trace::Word> words;
    for (int n = -20; n <= 20; n += 10) {
        words.push_back(numberAt(900 + n * kPitch, 100, std::abs(n)));
    }
    const auto series = trace::detail::numberSeriesOf(words, true);
    REQUIRE(series.size() == 1);
    CHECK(series[0].first == -20);
    CHECK(series[0].last == 20);
    CHECK(series[0].pitch == Approx(kPitch).margin(0.01));
    CHECK(series[0].origin == Approx(900).margin(0.1));
}

TEST_CASE("numbers along the edges tell a grid that prints neither lines nor a frame") {
    const auto grids = trace::gridsOn(unlinedChart(edgeNumbers()));
    REQUIRE_FALSE(grids.empty());
    CHECK(grids[0].columns == kColumnsWide);
    CHECK(grids[0].rows == kRowsHigh);
    CHECK(std::abs(grids[0].outline[0].x() - kLeft) < 1.5);
    CHECK(std::abs(grids[0].outline[0].y() - kTop) < 1.5);
    CHECK(std::abs(grids[0].outline[2].x() - kLeft - kColumnsWide * kPitch) < 1.5);
}

TEST_CASE("two numbers along one edge are enough beside more along the other, as far apart") {
    std::vector<trace::Word> words = edgeNumbers();
    std::erase_if(words, [](const trace::Word& word) {
        return word.box.center().y() < kTop && word.text != QStringLiteral("15") &&
               word.text != QStringLiteral("30");
    });
    const auto grids = trace::gridsOn(unlinedChart(words));
    REQUIRE_FALSE(grids.empty());
    CHECK(grids[0].rows == kRowsHigh);
    CHECK(std::abs(grids[0].outline[0].x() - kLeft) < 1.5);
    CHECK(std::abs(grids[0].outline[0].y() - kTop) < 1.5);
}

TEST_CASE("a number half over the frame covers the cells there, one in a cell is its symbol") {
    trace::FoundGrid grid;
    grid.columns = kColumnsWide;
    grid.rows = kRowsHigh;
    for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}}) {
        grid.outline << QPointF(kLeft + kPitch * kColumnsWide * x, kTop + kPitch * kRowsHigh * y);
    }
    std::vector<trace::Word> words;
    for (int n = 10; n <= 30; n += 10) {
        words.push_back(numberAt(kLeft + n * kPitch, kTop, n));                    // over it
        words.push_back(numberAt(kLeft + n * kPitch, kTop + 10.5 * kPitch, n));    // within
        words.push_back(numberAt(kLeft + n * kPitch, kTop + kPitch * 26 + 20, n)); // beyond
    }
    constexpr int kCell = 20;
    cv::Mat mask = cv::Mat::zeros(kRowsHigh * kCell, kColumnsWide * kCell, CV_8U);
    std::vector<char> masked(static_cast<std::size_t>(kColumnsWide * kRowsHigh), 0);
    trace::detail::coverEdgeNumbers(words, grid, kCell, mask, masked);
    const auto isMasked = [&](int column, int row) {
        return masked[static_cast<std::size_t>(row * kColumnsWide + column)] != 0;
    };
    CHECK(isMasked(9, 0));
    CHECK(isMasked(10, 0));
    CHECK(mask.at<uchar>(2, 10 * kCell) == 255);
    CHECK(mask.at<uchar>(kCell - 1, 10 * kCell) == 0);
    CHECK_FALSE(isMasked(12, 0));
    CHECK_FALSE(isMasked(10, 10));
    CHECK_FALSE(isMasked(10, 25));
}
