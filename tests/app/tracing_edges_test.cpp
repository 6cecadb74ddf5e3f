// A grid that was found a line too large or too small, before it is traced.

#include "app/tracing_dialog_fixture.h"

#include "app/tracing/grid_edges.h"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QPushButton>

using namespace otherskein;
using app::GridSide;
using app::withEdgeMoved;
using tests::OpenDialog;

namespace {

/// How far a point is from the line through two others.
double distance(const QPointF& point, const QLineF& line) {
    const QPointF along = line.unitVector().p2() - line.p1();
    const QPointF to = point - line.p1();
    return std::abs(along.x() * to.y() - along.y() * to.x());
}

} // namespace

TEST_CASE("an edge is moved by keys or buttons, and what is traced has that size") {
    OpenDialog open; // 8 × 6 cells of 20 px, from 20, 20
    QTest::keyClick(&open.preview(), Qt::Key_Right, Qt::ControlModifier);
    open.settle();
    QTest::keyClick(&open.preview(), Qt::Key_Down, Qt::ControlModifier);
    open.settle();
    QTest::keyClick(&open.preview(), Qt::Key_Left, Qt::ControlModifier | Qt::ShiftModifier);
    open.settle();
    QTest::mouseClick(&open.control<QPushButton>("A row less at the top"), Qt::LeftButton);
    open.settle();
    CHECK(open.says(QStringLiteral("Grid 1, 8 × 6.")));
    QTest::keyClick(&open.dialog, Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(QTest::qWaitFor([&] { return open.made.has_value(); }));
    open.settle();
    REQUIRE(open.asked.traced.size() == 1);
    const trace::FoundGrid& grid = open.asked.traced.front().grid;
    CHECK(grid.columns == 8);
    CHECK(grid.rows == 6);
    CHECK(grid.outline.boundingRect().toRect() == QRect(40, 40, 160, 120));
}

TEST_CASE("the dialog needs no more room than the smallest window has, with all its parts") {
    OpenDialog open(2);
    QTest::mouseClick(&open.control<QPushButton>("All pages"), Qt::LeftButton);
    open.settle();
    REQUIRE(open.dialog.findChild<app::PiecesPanel*>()->isVisible());
    constexpr QSize kSmallest(960, 620); // of the main window
    CHECK(open.dialog.minimumSizeHint().width() <= kSmallest.width());
    CHECK(open.dialog.minimumSizeHint().height() <= kSmallest.height());
}

TEST_CASE("edges are moved of the grid that was chosen last, and of none when none is chosen") {
    OpenDialog open;
    QTest::keyClick(&open.preview(), Qt::Key_2);
    open.settle();
    CHECK(open.says(QStringLiteral("Grid 2, 4 × 4.")));
    QTest::keyClick(&open.preview(), Qt::Key_Up, Qt::ControlModifier);
    open.settle();
    CHECK(open.says(QStringLiteral("Grid 2, 4 × 5.")));
    QTest::keyClick(&open.preview(), Qt::Key_2);
    open.settle();
    CHECK(open.says(QStringLiteral("Grid 1, 8 × 6.")));
    QTest::keyClick(&open.preview(), Qt::Key_1);
    open.settle();
    CHECK(open.says(QStringLiteral("No grid is chosen")));
    CHECK_FALSE(open.control<QPushButton>("A column more on the left").isEnabled());
    QTest::keyClick(&open.preview(), Qt::Key_Up, Qt::ControlModifier);
    CHECK(open.says(QStringLiteral("No grid is chosen")));
}

TEST_CASE("a grid seen aslant grows in its own perspective, and back to what it was") {
    trace::FoundGrid grid{10, 8, {}, 11, 1};
    grid.outline = QPolygonF({{100, 120}, {480, 90}, {520, 400}, {80, 430}});
    const auto side = GENERATE(GridSide::Left, GridSide::Right, GridSide::Top, GridSide::Bottom);
    const trace::FoundGrid more = withEdgeMoved(grid, side, 1);
    const bool across = side == GridSide::Left || side == GridSide::Right;
    CHECK(more.columns == (across ? 11 : 10));
    CHECK(more.rows == (across ? 8 : 9));
    // Sides that are made longer stay on their lines, and the other two stand where they were.
    const QPolygonF& now = more.outline;
    for (int corner = 0; corner < 4; ++corner) {
        CAPTURE(corner);
        const QLineF longer = across == (corner % 2 == 0)
                                  ? QLineF(now[corner], now[(corner + 1) % 4])
                                  : QLineF(now[corner], now[(corner + 3) % 4]);
        CHECK(distance(grid.outline[corner], longer) < 1e-6);
    }
    const trace::FoundGrid back = withEdgeMoved(more, side, -1);
    CHECK(back.columns == 10);
    CHECK(back.rows == 8);
    for (int corner = 0; corner < 4; ++corner) {
        CHECK(QLineF(back.outline[corner], grid.outline[corner]).length() < 1e-6);
    }
}

TEST_CASE("the printed number of the first line goes with the edge, and is none before 1") {
    trace::FoundGrid grid{10, 8, QRectF(0, 0, 100, 80), 11, 1};
    grid.outline.resize(4); // a rectangle's polygon is closed
    CHECK(withEdgeMoved(grid, GridSide::Left, 1).firstColumn == 10);
    CHECK(withEdgeMoved(grid, GridSide::Left, -1).firstColumn == 12);
    CHECK(withEdgeMoved(grid, GridSide::Right, 1).firstColumn == 11);
    CHECK_FALSE(withEdgeMoved(grid, GridSide::Top, 1).firstRow);
    CHECK(withEdgeMoved(grid, GridSide::Top, -1).firstRow == 2);
    CHECK(withEdgeMoved(grid, GridSide::Top, -8).rows == 8); // nothing would be left
}

TEST_CASE("the page is looked at closely by keys, wheel and drag; a drag chooses no grid") {
    OpenDialog open;
    auto& page = open.preview();
    const double whole = page.outlineOf(0).boundingRect().width();
    QTest::keyClick(&page, Qt::Key_Plus);
    QTest::keyClick(&page, Qt::Key_Plus);
    CHECK(page.outlineOf(0).boundingRect().width() == Approx(2.25 * whole));
    const QPointF before = page.outlineOf(0)[0];
    const QPoint from = page.rect().center();
    QTest::mousePress(&page, Qt::LeftButton, {}, from);
    QTest::mouseMove(&page, from + QPoint(15, 0));
    QTest::mouseMove(&page, from + QPoint(40, 30));
    QTest::mouseRelease(&page, Qt::LeftButton, {}, from + QPoint(40, 30));
    CHECK((page.outlineOf(0)[0] - before - QPointF(40, 30)).manhattanLength() < 0.01);
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1});
    QTest::keyClick(&page, Qt::Key_0);
    CHECK(page.outlineOf(0).boundingRect().width() == Approx(whole));
    QTest::mouseClick(&open.control<QPushButton>("Zoom in"), Qt::LeftButton);
    CHECK(page.zoom() == Approx(1.5));
    QTest::mouseClick(&open.control<QPushButton>("Whole page"), Qt::LeftButton);
    CHECK(page.zoom() == 1);
}
