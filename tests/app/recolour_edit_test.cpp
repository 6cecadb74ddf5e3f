#include "app/recolour/recolour_desk.h"

#include "app/recolour/colourway_bar.h"
#include "app/recolour/colourway_delegate.h"
#include "app/recolour_fixture.h"
#include "chart/chart_files.h"

#include <catch2/catch.hpp>

#include <QLineEdit>

using namespace otherskein;
using tests::OpenRecolour;

TEST_CASE("a click on a card takes it, and undo gives it back") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(2);
    REQUIRE(open.kept().size() == 1);
    CHECK(open.place->desk().isKept());
    CHECK(app::isSameChoice(open.shown(), open.cards().alternative(2).colourway.now));
    CHECK(open.cards().takenRow() == 2);

    open.document->undoStack().undo();
    CHECK(open.kept().empty());
    CHECK_FALSE(open.place->desk().isKept());
    CHECK(open.cards().takenRow() == -1);
    open.document->undoStack().redo();
    CHECK(open.cards().takenRow() == 2);
}

TEST_CASE("another card changes the same colourway, step by step") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(1);
    open.clickCard(3);
    CHECK(open.kept().size() == 1);
    CHECK(open.cards().takenRow() == 3);
    open.document->undoStack().undo();
    CHECK(open.cards().takenRow() == 1);
}

TEST_CASE("enter takes the card that the arrow keys stand on") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    auto& wall = open.the<app::AlternativesWall>();
    wall.setFocus();
    wall.setCurrentIndex(open.cards().index(0));
    QTest::keyClick(&wall, Qt::Key_Right);
    CHECK(open.kept().empty());
    QTest::keyClick(&wall, Qt::Key_Return);
    CHECK(open.cards().takenRow() == 1);
}

TEST_CASE("a locked row keeps its thread through new ideas") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(0);
    auto& table = open.the<app::ColourwayTable>();
    table.choosePart(1);
    QTest::keyClick(&table, Qt::Key_L);
    REQUIRE(open.place->desk().locks().contains(1));
    const colourway::Choice locked = open.shown()[1];
    REQUIRE(open.filled());
    QTest::keyClick(&table, Qt::Key_R);
    REQUIRE(open.filled());
    CHECK(open.cards().rowCount() >= 3);
    for (int row = 0; row < open.cards().rowCount(); ++row) {
        CAPTURE(row);
        CHECK(open.cards().alternative(row).colourway.now[1].isSameAs(locked));
    }
    QTest::keyClick(&table, Qt::Key_L);
    CHECK(open.place->desk().locks().empty());
}

TEST_CASE("the mouse turns a lock as one step") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(0);
    const int steps = open.document->undoStack().count();
    auto& table = open.the<app::ColourwayTable>();
    const QRect row = table.visualRect(table.model()->index(2, 0));
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {},
                      app::ColourwayDelegate::lockArea(row, Qt::LeftToRight).center());
    CHECK(open.place->desk().locks().contains(2));
    CHECK(open.document->undoStack().count() == steps + 1);
    open.document->undoStack().undo();
    CHECK(open.place->desk().locks().empty());
}

TEST_CASE("undo while the wall fills is not overwritten by late answers") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(1);
    open.place->newIdeas();
    REQUIRE(open.place->isBusy());
    open.document->undoStack().undo();
    REQUIRE(open.filled());
    CHECK(open.kept().empty());
    CHECK_FALSE(open.place->desk().isKept());
}

TEST_CASE("a row takes the thread whose code is typed, and is locked") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(0);
    auto& table = open.the<app::ColourwayTable>();
    table.choosePart(4);
    table.setFocus();
    QTest::keyClick(&table, Qt::Key_F2);
    auto* field = open.control<QLineEdit>("Thread of the chosen row: code or name");
    REQUIRE(field != nullptr);
    REQUIRE(field->hasFocus());
    const auto before = open.shown();
    QTest::keyClicks(field, QStringLiteral("R-23"));
    CHECK(app::isSameChoice(open.shown(), before)); // not before Enter
    QTest::keyClick(field, Qt::Key_Return);
    CHECK(open.shown()[4].code() == QStringLiteral("R-23"));
    CHECK(open.place->desk().locks().contains(4));
    open.document->undoStack().undo();
    CHECK(app::isSameChoice(open.shown(), before));
}

TEST_CASE("colourway, lock and switches outlive the window") {
    OpenRecolour open({tests::squaresInOneColour(), tests::squaresInFour()});
    REQUIRE(open.filled());
    open.press("Surprise me");
    REQUIRE(open.filled());
    open.clickCard(3);
    open.the<app::ColourwayTable>().choosePart(2);
    open.the<app::ColourwayTable>().turnLock();
    REQUIRE(open.filled());
    const app::RecolourState state = open.place->state();
    const auto shown = open.shown();
    open.reopen();
    REQUIRE(open.filled());
    CHECK(open.place->state() == state);
    CHECK(app::isSameChoice(open.shown(), shown));
    CHECK(open.place->desk().locks().contains(2));
    CHECK(open.cards().takenRow() == 0); // what is kept stands first
}

TEST_CASE("each chart shows its own colourway") {
    const OpenRecolour open({tests::squaresInOneColour(), tests::squaresInFour()});
    REQUIRE(open.filled());
    open.clickCard(0);
    const auto first = open.shown();
    const auto charts = open.document->charts();
    open.session->chooseChart(charts[1].id);
    REQUIRE(open.filled());
    CHECK_FALSE(open.place->desk().isKept());
    CHECK(open.shown().size() == 4);
    open.session->chooseChart(charts[0].id);
    REQUIRE(open.filled());
    CHECK(app::isSameChoice(open.shown(), first));
}

TEST_CASE("a copy is kept, renamed and deleted without touching the other") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(0);
    auto& desk = open.place->desk();
    const workbox::StoredColourway first = open.kept().front();
    desk.keepCopy();
    REQUIRE(open.kept().size() == 2);
    CHECK(desk.state().colourway == open.kept().back().id);
    desk.rename(QStringLiteral("For the hall"));
    open.clickCard(2);
    CHECK(open.kept().back().name == QStringLiteral("For the hall"));
    CHECK(open.kept().front().content == first.content);
    desk.remove();
    REQUIRE(open.kept().size() == 1);
    CHECK(desk.state().colourway == first.id);
}

TEST_CASE("what is saved is read back as the recoloured chart") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(1);
    const QString path = open.folder.filePath(QStringLiteral("out.png"));
    open.place->saveTo(path);
    const chart::Chart back = chart::readChart(chart::pathsBeside(path));
    const chart::Chart made = open.place->desk().worked();
    CHECK(back.grid == made.grid);
    REQUIRE(back.key.size() == made.key.size());
    for (std::size_t i = 0; i < back.key.size(); ++i) {
        CHECK(back.key[i].code == made.key[i].code);
        CHECK(back.key[i].stitches == made.key[i].stitches);
    }
}

TEST_CASE("the recoloured chart can become a chart of the workbox") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.press("Make it a chart");
    REQUIRE(open.document->charts().size() == 2);
    const auto made = open.document->chart(open.document->charts().back().id);
    REQUIRE(made != nullptr);
    CHECK(made->key.size() >= 2);
    CHECK(made->isConsistent());
}

TEST_CASE("other threads keep a kept colour family for later") {
    const OpenRecolour open({tests::squaresInFour()});
    REQUIRE(open.filled());
    open.clickCard(1);
    const auto family = open.shown();
    open.press("Other threads");
    REQUIRE(open.filled());
    CHECK(open.place->state().job == app::RecolourJob::Convert);
    CHECK_FALSE(open.place->desk().isKept());
    open.press("Another colour family");
    REQUIRE(open.filled());
    CHECK(app::isSameChoice(open.shown(), family));
}
