#include "trace/detail/pixel_phases.h"

#include "trace/detail/views.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using namespace otherskein;
using namespace otherskein::trace::detail;

namespace {

constexpr int kPhaseColumns = 50;
constexpr int kPhaseRows = 40;
constexpr double kPhasePitch = 16.37;
constexpr double kPhaseLeft = 101.3;
constexpr double kPhaseTop = 88.8;

/// A page whose lines a program put at whole pixels, each tenth wider; `every` of them is missing.
trace::Page pageOfLines(int every) {
    QImage picture(1000, 820, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    const auto draw = [&](int lines, double first, double second, double length, bool isUpright) {
        for (int i = 0; i <= lines; ++i) {
            if (every > 0 && i % every == 1) {
                continue;
            }
            const int wide = i % 10 == 0 ? 3 : 1;
            const auto at = static_cast<int>(std::floor(first + kPhasePitch * i)) - wide / 2;
            const auto from = static_cast<int>(second);
            const auto size = static_cast<int>(length);
            painter.fillRect(isUpright ? QRect(at, from, wide, size) : QRect(from, at, size, wide),
                             QColor(60, 60, 60));
        }
    };
    draw(kPhaseColumns, kPhaseLeft, kPhaseTop, kPhasePitch * kPhaseRows, true);
    draw(kPhaseRows, kPhaseTop, kPhaseLeft, kPhasePitch * kPhaseColumns, false);
    painter.end();
    trace::Page page;
    page.source = QStringLiteral("drawn");
    page.picture = picture.convertToFormat(QImage::Format_BGR888);
    return page;
}

/// Of the grid as it was found: `off` px away at the left and top, and as far to the other side at
/// the right and bottom.
Sheet sheetFoundOff(const trace::Page& page, double off) {
    trace::FoundGrid grid;
    grid.columns = kPhaseColumns;
    grid.rows = kPhaseRows;
    const double right = kPhaseLeft + kPhasePitch * kPhaseColumns - off;
    const double bottom = kPhaseTop + kPhasePitch * kPhaseRows - off;
    grid.outline << QPointF(kPhaseLeft + off, kPhaseTop + off) << QPointF(right, kPhaseTop + off)
                 << QPointF(right, bottom) << QPointF(kPhaseLeft + off, bottom);
    const std::array pieces{trace::Piece{0, grid, {}}};
    return sheetsOf(std::span(&page, 1), pieces).front();
}

/// The most that steps in phase from a cell to the next are off, px.
double worstStep(const std::vector<cv::Point2f>& phases) {
    double worst = 0;
    const auto offOf = [](float before, float after) {
        const double step = static_cast<double>(after - before) - kPhasePitch;
        return std::abs(step - std::round(step));
    };
    for (int row = 1; row < kPhaseRows; ++row) {
        for (int column = 1; column < kPhaseColumns; ++column) {
            const auto at = static_cast<std::size_t>(row * kPhaseColumns + column);
            worst = std::max({worst, offOf(phases[at - 1].x, phases[at].x),
                              offOf(phases[at - kPhaseColumns].y, phases[at].y)});
        }
    }
    return worst;
}

} // namespace

TEST_CASE("phases follow the grid's own lines, though they were rounded to pixels") {
    const double off = GENERATE(0.0, 0.6, -0.6);
    const int every = GENERATE(0, 3);
    CAPTURE(off, every);
    const Sheet sheet = sheetFoundOff(pageOfLines(every), off);
    const std::vector<cv::Point2f> phases = pixelPhasesOf(sheet);
    REQUIRE(phases.size() == static_cast<std::size_t>(kPhaseColumns * kPhaseRows));
    CHECK(worstStep(phases) < 0.01);
}

TEST_CASE("where there are no lines, phases are those of the grid that was found") {
    trace::Page page;
    page.source = QStringLiteral("drawn");
    QImage white(1000, 820, QImage::Format_BGR888);
    white.fill(Qt::white);
    page.picture = white;
    const Sheet sheet = sheetFoundOff(page, 0.3);
    const std::vector<cv::Point2f> phases = pixelPhasesOf(sheet);
    for (int column = 0; column < kPhaseColumns; ++column) {
        const cv::Point2d at = sheet.lattice.corner(column + 0.5, 0.5);
        CHECK(phases[static_cast<std::size_t>(column)].x ==
              Approx(at.x - std::floor(at.x)).margin(1e-4));
    }
}
