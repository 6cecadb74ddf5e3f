#include "app/charts_fixture.h"

#include <catch2/catch.hpp>

#include <QLabel>

using namespace otherskein;
using app::MendMode;
using tests::OpenCharts;

TEST_CASE("a stroke lays one connected line of stitches as one step, and undo takes it back") {
    OpenCharts open;
    const chart::Chart before = open.stored();
    open.setMode(MendMode::Stitch, chart::KeyIndex{2});
    open.drag({open.at(0, 5), open.at(7, 3)}); // two points far apart
    const chart::Chart after = open.stored();
    CHECK(after.key[2].stitches == 8);
    for (int column = 0; column < 8; ++column) {
        int hits = 0;
        for (int row = 3; row < 6; ++row) {
            hits += after.grid.at({column, row}) == 2 ? 1 : 0;
        }
        CAPTURE(column);
        CHECK(hits == 1);
    }
    CHECK(open.steps() == 1);
    CHECK(after.isConsistent());
    open.undo();
    CHECK(open.stored() == before);
    open.document.undoStack().redo();
    CHECK(open.stored() == after);
}

TEST_CASE("a stroke over what is so already makes no step") {
    OpenCharts open;
    open.setMode(MendMode::Stitch, chart::KeyIndex{0});
    open.drag({open.at(0, 0), open.at(2, 0)});
    CHECK(open.steps() == 0);
}

TEST_CASE("a stroke may leave the chart and come back") {
    OpenCharts open;
    open.setMode(MendMode::Stitch, chart::KeyIndex{2});
    open.drag({open.at(6, 3), open.at(12, 3), open.at(6, 5)});
    CHECK(open.stored().grid.at({7, 3}) == 2);
    CHECK(open.stored().grid.at({6, 5}) == 2);
    CHECK(open.steps() == 1);
}

TEST_CASE("Escape in the middle of a stroke leaves the chart as it was") {
    OpenCharts open;
    const chart::Chart before = open.stored();
    open.setMode(MendMode::Stitch, chart::KeyIndex{2});
    QTest::mousePress(&open.canvas(), Qt::LeftButton, {}, open.at(1, 1));
    QTest::keyClick(&open.canvas(), Qt::Key_Escape);
    QTest::mouseRelease(&open.canvas(), Qt::LeftButton, {}, open.at(1, 1));
    CHECK(open.stored() == before);
    CHECK(open.state().mode == MendMode::Stitch);
}

TEST_CASE("what a stroke shows while it is drawn is what the document holds afterwards") {
    OpenCharts open;
    open.setMode(MendMode::Stitch, chart::KeyIndex{2});
    QTest::mousePress(&open.canvas(), Qt::LeftButton, {}, open.at(4, 1));
    QMouseEvent move(QEvent::MouseMove, open.at(4, 3), open.canvas().mapToGlobal(open.at(4, 3)),
                     Qt::NoButton, Qt::LeftButton, {});
    QCoreApplication::sendEvent(&open.canvas(), &move);
    const QImage during = open.canvas().grab().toImage();
    QTest::mouseRelease(&open.canvas(), Qt::LeftButton, {}, open.at(4, 3));
    const QImage afterwards = open.canvas().grab().toImage();
    open.undo();
    const QImage undone = open.canvas().grab().toImage();
    CHECK(during == afterwards);
    CHECK_FALSE(during == undone);
}

TEST_CASE("unpicking bares cells") {
    OpenCharts open;
    open.setMode(MendMode::Unpick);
    open.drag({open.at(0, 1), open.at(2, 1)});
    for (int column = 0; column < 3; ++column) {
        CHECK(open.stored().grid.at({column, 1}) == chart::kBare);
    }
    CHECK(open.stored().key[0].stitches == 17 - 3);
    CHECK(open.document.undoStack().undoText() == QStringLiteral("Unpick stitches"));
}

TEST_CASE("a fill takes the whole area of one row and stops at its edge") {
    OpenCharts open;
    open.setMode(MendMode::Fill, chart::KeyIndex{2});
    open.click(1, 1);
    const chart::Chart after = open.stored();
    CHECK(after.key[2].stitches == 9);
    CHECK(after.grid.at({0, 4}) == 0); // of the same row, but not joined
    open.undo();
    CHECK(open.stored().key[2].stitches == 0);
}

TEST_CASE("a pick takes the row under the pointer and goes on to stitch with it") {
    OpenCharts open;
    open.setMode(MendMode::Pick);
    open.click(6, 1);
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(open.state().mode == MendMode::Stitch);
    open.setMode(MendMode::Pick, chart::KeyIndex{1});
    open.click(4, 0); // bare ground
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(open.state().mode == MendMode::Pick);
}

TEST_CASE("a click while looking finds the thread of a stitch, and another one lets it go") {
    OpenCharts open;
    open.click(6, 1);
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(open.state().mode == MendMode::Look);
    open.click(7, 2);
    CHECK_FALSE(open.state().row);
    CHECK(open.steps() == 0);
}

TEST_CASE("a drag while looking moves the chart and finds nothing") {
    OpenCharts open;
    const QPointF before = open.canvas().view().origin;
    const QPoint from = open.at(6, 1);
    open.drag({from, from + QPoint(60, 25)});
    CHECK(open.canvas().view().origin == before + QPointF(60, 25));
    CHECK_FALSE(open.state().row);
}

TEST_CASE("the keys of the modes") {
    struct Case {
        Qt::Key key;
        MendMode mode;
    };
    const Case cases[] = {{Qt::Key_2, MendMode::Stitch},   {Qt::Key_3, MendMode::Unpick},
                          {Qt::Key_4, MendMode::Fill},     {Qt::Key_5, MendMode::Pick},
                          {Qt::Key_1, MendMode::Look},     {Qt::Key_2, MendMode::Stitch},
                          {Qt::Key_Escape, MendMode::Look}};
    OpenCharts open;
    open.canvas().setFocus();
    for (const Case& one : cases) {
        QTest::keyClick(&open.canvas(), one.key);
        CAPTURE(one.key);
        CHECK(open.state().mode == one.mode);
    }
}

TEST_CASE("stitching needs a row and begins with the first when none is chosen") {
    OpenCharts open;
    QTest::keyClick(&open.canvas(), Qt::Key_2);
    CHECK(open.state().row == chart::KeyIndex{0});
}

TEST_CASE("cells are mended by key alone") {
    OpenCharts open;
    open.canvas().setFocus();
    open.setMode(MendMode::Stitch, chart::KeyIndex{2});
    QTest::keyClick(&open.canvas(), Qt::Key_Right); // shows where it begins
    REQUIRE(open.canvas().cell());
    const chart::Cell begin = *open.canvas().cell();
    QTest::keyClick(&open.canvas(), Qt::Key_Left);
    QTest::keyClick(&open.canvas(), Qt::Key_Up);
    QTest::keyClick(&open.canvas(), Qt::Key_Space);
    CHECK(open.canvas().cell() == chart::Cell{begin.column - 1, begin.row - 1});
    CHECK(open.stored().grid.at({begin.column - 1, begin.row - 1}) == 2);
    for (int i = 0; i < 20; ++i) {
        QTest::keyClick(&open.canvas(), Qt::Key_Down);
    }
    CHECK(open.canvas().cell() == chart::Cell{begin.column - 1, 5});
}

TEST_CASE("a look at one row dims the others in the chart") {
    OpenCharts open;
    open.click(6, 1);
    const QImage marked = open.canvas().grab().toImage();
    QTest::keyClick(&open.canvas(), Qt::Key_Escape);
    CHECK_FALSE(open.state().row);
    const QImage plain = open.canvas().grab().toImage();
    const QPoint other = open.at(1, 1);
    const QPoint same = open.at(6, 1);
    CHECK(qGray(marked.pixel(other)) > qGray(plain.pixel(other)) + 20);
    CHECK(marked.pixel(same) == plain.pixel(same));
}

TEST_CASE("the line above the chart says what lies under the pointer") {
    OpenCharts open;
    const auto says = [&](const QString& text) {
        for (const auto* label : open.place->findChildren<QLabel*>()) {
            if (label->text() == text) {
                return true;
            }
        }
        return false;
    };
    CHECK(says(QStringLiteral("8 × 6 stitches")));
    QTest::mouseMove(&open.canvas(), open.at(6, 1));
    CHECK(QTest::qWaitFor([&] { return says(QStringLiteral("Column 7, row 2: Q-2 Quay 2")); }));
    QTest::mouseMove(&open.canvas(), open.at(4, 3));
    CHECK(QTest::qWaitFor([&] { return says(QStringLiteral("Column 5, row 4: bare ground")); }));
}
