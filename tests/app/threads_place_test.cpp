#include "app/threads_fixture.h"

#include "app/threads/card_list.h"
#include "app/threads/table_view.h"
#include "app/threads/wall_grid.h"
#include "app/threads/wall_view.h"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QScrollBar>

using namespace otherskein;
using tests::OpenThreads;

TEST_CASE("the arrow keys go over the wall and Shift chooses a run") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    open.change([](auto& state) { state.order = app::WallOrder::Code; });
    open.choose({QStringLiteral("H-1")});
    wall->setFocus();
    QTest::keyClick(wall, Qt::Key_Right);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-2")});
    QTest::keyClick(wall, Qt::Key_Right, Qt::ShiftModifier);
    QTest::keyClick(wall, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(open.chosenCodes() ==
          QStringList{QStringLiteral("H-2"), QStringLiteral("H-10"), QStringLiteral("H-21")});
    QTest::keyClick(wall, Qt::Key_End);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("M-2")});
    QTest::keyClick(wall, Qt::Key_Home);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-1")});
}

TEST_CASE("in a window from right to left the left key goes on") {
    OpenThreads open;
    open.place->setLayoutDirection(Qt::RightToLeft);
    auto* wall = open.place->findChild<app::WallView*>();
    open.change([](auto& state) { state.order = app::WallOrder::Code; });
    open.choose({QStringLiteral("H-1")});
    QTest::keyClick(wall, Qt::Key_Left);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-2")});
    CHECK(wall->visualRect(open.model().index(1, 0)).right() + 1 ==
          wall->visualRect(open.model().index(0, 0)).left());
}

TEST_CASE("Down and up go by rows of the wall") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    open.change([](auto& state) {
        state.order = app::WallOrder::Code;
        state.chipWidth = app::kMostChipWidth; // three in a row
    });
    open.choose({QStringLiteral("H-2")});
    const QRect before = wall->visualRect(wall->currentIndex());
    QTest::keyClick(wall, Qt::Key_Down);
    const QRect after = wall->visualRect(wall->currentIndex());
    CHECK(after.left() == before.left());
    CHECK(after.top() == before.bottom() + 1);
    QTest::keyClick(wall, Qt::Key_Up);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-2")});
}

TEST_CASE("Enter on a chip asks for substitutes of its thread") {
    OpenThreads open;
    QSignalSpy asked(&open.session, &app::Session::substituteAsked);
    open.choose({QStringLiteral("H-10")});
    QTest::keyClick(open.place->findChild<app::WallView*>(), Qt::Key_Return);
    CHECK(asked.count() == 1);
    CHECK(open.session.wanted().card == QStringLiteral("harbour"));
    CHECK(open.session.wanted().code == QStringLiteral("H-10"));
}

TEST_CASE("a double click on a chip asks for substitutes of its thread") {
    OpenThreads open;
    QSignalSpy asked(&open.session, &app::Session::substituteAsked);
    auto* wall = open.place->findChild<app::WallView*>();
    const QPoint at = wall->visualRect(open.model().index(open.rowOf("M-2"), 0)).center();
    QTest::mouseClick(wall->viewport(), Qt::LeftButton, {}, at);
    QTest::mouseDClick(wall->viewport(), Qt::LeftButton, {}, at);
    CHECK(asked.count() == 1);
    CHECK(open.session.wanted().code == QStringLiteral("M-2"));
}

TEST_CASE("a click with Control adds a chip to the chosen ones") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    const auto click = [&](const char* code, Qt::KeyboardModifiers keys) {
        const QModelIndex index = open.model().index(open.rowOf(code), 0);
        QTest::mouseClick(wall->viewport(), Qt::LeftButton, keys, wall->visualRect(index).center());
    };
    click("H-1", {});
    click("M-1", Qt::ControlModifier);
    CHECK(open.chosenCodes().size() == 2);
    click("M-1", Qt::ControlModifier);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-1")});
}

TEST_CASE("typing searches and Down goes from the search into the wall") {
    OpenThreads open;
    open.place->focusSearch();
    auto* search = open.control<QLineEdit>("Search threads by code, name or colour");
    REQUIRE(search != nullptr);
    QTest::keyClicks(search, QStringLiteral("moss"));
    CHECK(open.codes() == QStringList{QStringLiteral("M-2")});
    QTest::keyClick(search, Qt::Key_Down);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("M-2")});
    QTest::keyClick(search, Qt::Key_Escape);
    CHECK(open.codes().size() == 6);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("M-2")});
}

TEST_CASE("letters typed over the wall go into the search field") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    wall->setFocus();
    QTest::keyClicks(wall, QStringLiteral("s"));
    CHECK(open.place->state().search == QStringLiteral("s"));
}

TEST_CASE("chosen threads stay chosen through orders and views") {
    OpenThreads open;
    open.choose({QStringLiteral("H-2"), QStringLiteral("M-1")});
    QStringList before = open.chosenCodes();
    before.sort();
    for (const auto order : {app::WallOrder::Code, app::WallOrder::Lightness}) {
        open.change([&](auto& state) { state.order = order; });
        QStringList after = open.chosenCodes();
        after.sort();
        CHECK(after == before);
    }
    open.showTable();
    CHECK(open.chosenCodes().size() == 2);
}

TEST_CASE("the keys of the card list go from card to card") {
    OpenThreads open;
    auto* list = open.place->findChild<app::CardList*>();
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Down);
    CHECK(open.place->state().card == open.harbour);
    CHECK(open.codes().size() == 4);
    QTest::keyClick(list, Qt::Key_Home);
    CHECK_FALSE(open.place->state().card);
}

TEST_CASE("a card is renamed in the list") {
    OpenThreads open;
    auto* list = open.place->findChild<app::CardList*>();
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_F2);
    auto* editor = list->viewport()->findChild<QLineEdit*>();
    REQUIRE(editor != nullptr);
    editor->selectAll();
    QTest::keyClicks(editor, QStringLiteral("quay"));
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents(); // the list takes the text
    QCoreApplication::processEvents(); // and then renames the card
    CHECK(open.document.card(open.harbour)->name == QStringLiteral("quay"));
    CHECK(open.place->state().card == open.harbour);
}

TEST_CASE("a card that is deleted gives way to all cards and undo brings it back") {
    OpenThreads open;
    auto* list = open.place->findChild<app::CardList*>();
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Delete);
    CHECK(open.document.card(open.harbour) == nullptr);
    CHECK_FALSE(open.place->state().card);
    CHECK(open.codes().size() == 2);
    open.document.undoStack().undo();
    CHECK(open.codes().size() == 6);
    CHECK(list->count() == 3);
}

TEST_CASE("plus and minus make the chips of the wall larger and smaller") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    const int before = open.place->state().chipWidth;
    QTest::keyClick(wall, Qt::Key_Plus);
    CHECK(open.place->state().chipWidth > before);
    for (int i = 0; i < 40; ++i) {
        QTest::keyClick(wall, Qt::Key_Minus);
    }
    CHECK(open.place->state().chipWidth == app::kLeastChipWidth);
}

TEST_CASE("chips touch and fill the width of the wall") {
    for (const auto direction : {Qt::LeftToRight, Qt::RightToLeft}) {
        for (const int across : {100, 333, 650}) {
            const app::WallGrid grid(200, across, 37, direction);
            int covered = 0;
            for (int i = 0; i < grid.columns(); ++i) {
                const QRect chip = grid.chip(i);
                covered += chip.width();
                CHECK(grid.chipAt(chip.topLeft()) == i);
                CHECK(grid.chipAt(chip.bottomRight()) == i);
            }
            CHECK(covered == across);
        }
    }
}

TEST_CASE("every control of Threads has an accessible name") {
    OpenThreads open;
    open.choose({QStringLiteral("H-2")});
    QTest::keyClick(open.place.get(), Qt::Key_Insert);
    for (auto* widget : open.place->findChildren<QWidget*>()) {
        const bool control =
            qobject_cast<QAbstractButton*>(widget) || qobject_cast<QComboBox*>(widget) ||
            qobject_cast<QAbstractSpinBox*>(widget) || qobject_cast<QLineEdit*>(widget) ||
            qobject_cast<QPlainTextEdit*>(widget) || qobject_cast<QAbstractItemView*>(widget) ||
            (qobject_cast<QAbstractSlider*>(widget) && !qobject_cast<QScrollBar*>(widget));
        const bool partOfAnother = qobject_cast<QAbstractSpinBox*>(widget->parentWidget()) ||
                                   qobject_cast<QComboBox*>(widget->parentWidget());
        const bool inThisWindow = widget->window() == open.place->window();
        if (!control || partOfAnother || !inThisWindow || widget->focusPolicy() == Qt::NoFocus) {
            continue;
        }
        CAPTURE(widget->metaObject()->className(), widget->objectName().toStdString());
        CHECK_FALSE(widget->accessibleName().isEmpty());
    }
}

TEST_CASE("a screen reader hears what a chip is") {
    OpenThreads open;
    const QString text =
        open.model().index(open.rowOf("H-10"), 0).data(Qt::AccessibleTextRole).toString();
    CHECK(text.contains(QStringLiteral("H-10  Slate")));
    CHECK(text.contains(QStringLiteral("1.5 skeins in the stash")));
    auto* heard = QAccessible::queryAccessibleInterface(open.place->findChild<app::WallView*>());
    REQUIRE(heard != nullptr);
    CHECK(heard->childCount() > 0);
}
