#include "app/threads_fixture.h"

#include "app/threads/stash_box.h"
#include "app/threads/table_view.h"
#include "app/threads/wall_view.h"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>

using namespace otherskein;
using app::Column;
using tests::OpenThreads;

namespace {

QModelIndex cell(const OpenThreads& open, const char* code, Column column) {
    return open.model().index(open.rowOf(code), app::indexOf(column));
}

/// Types into the cell as a user does.
void typeIntoCell(const OpenThreads& open, const char* code, Column column, const char* text) {
    auto* table = open.place->findChild<app::TableView*>();
    table->setFocus();
    table->setCurrentIndex(cell(open, code, column));
    QTest::keyClick(table, Qt::Key_F2);
    auto* editor = table->viewport()->findChild<QLineEdit*>();
    REQUIRE(editor != nullptr);
    editor->selectAll();
    QTest::keyClicks(editor, QString::fromUtf8(text));
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents(); // the view takes the text when the key has been dealt with
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
}

void typeInto(QLineEdit* field, const char* text) {
    REQUIRE(field != nullptr);
    field->setFocus();
    field->selectAll();
    QTest::keyClicks(field, QString::fromUtf8(text));
    QTest::keyClick(field, Qt::Key_Return);
}

} // namespace

TEST_CASE("a cell edited in the table is saved and undone") {
    OpenThreads open;
    open.showTable();
    typeIntoCell(open, "H-2", Column::Name, "Old rust");
    CHECK(open.stored("H-2").name == QStringLiteral("Old rust"));
    CHECK(open.document.store().cards().front().threads[0].thread.name ==
          QStringLiteral("Old rust"));
    open.document.undoStack().undo();
    CHECK(open.stored("H-2").name == QStringLiteral("Rust"));
    open.document.undoStack().redo();
    CHECK(open.stored("H-2").name == QStringLiteral("Old rust"));
}

TEST_CASE("bad input in a cell is refused with a line and the old value stays") {
    OpenThreads open;
    open.showTable();
    const std::tuple<Column, const char*, const char*> rows[] = {
        {Column::Stash, "many",
         "harbour: column Stash: expected a number from 0 to 10000, found \"many\""},
        {Column::L, "101", "harbour: column L*: expected a number from 0 to 100, found \"101\""},
        {Column::Plies, "2.5", "harbour: column Plies: expected a whole number, found \"2.5\""},
        {Column::Colour, "#12", "harbour: column Colour: expected #rrggbb, found \"#12\""},
        {Column::Code, "H-10",
         "harbour: column code: expected each code once on a card, found \"H-10\" again"}};
    for (const auto& [column, text, line] : rows) {
        CAPTURE(text);
        const thread::Thread before = open.stored("H-2");
        QSignalSpy refused(open.place.get(), &app::ThreadsPlace::refused);
        typeIntoCell(open, "H-2", column, text);
        REQUIRE(refused.count() == 1);
        CHECK(refused.front().front().toString() == QString::fromUtf8(line));
        CHECK(open.stored("H-2") == before);
    }
}

TEST_CASE("a cell left as it was makes no step") {
    OpenThreads open;
    open.showTable();
    const int steps = open.document.undoStack().count();
    for (int column = 0; column < open.model().columnCount(); ++column) {
        const QModelIndex index = open.model().index(0, column);
        open.model().setData(index, index.data(Qt::EditRole), Qt::EditRole);
    }
    CHECK(open.document.undoStack().count() == steps);
}

TEST_CASE("a decimal comma and a minus sign are understood") {
    OpenThreads open;
    open.showTable();
    typeIntoCell(open, "H-2", Column::Stash, "2,5");
    CHECK(open.stored("H-2").stash == 2.5);
    open.model().setData(cell(open, "H-2", Column::A), QStringLiteral("\u22123.5"), Qt::EditRole);
    CHECK(open.stored("H-2").lab.a == -3.5);
}

TEST_CASE("a Lab value typed puts the sRGB value aside and a hex value makes Lab anew") {
    OpenThreads open;
    open.showTable();
    typeIntoCell(open, "H-2", Column::L, "55");
    CHECK_FALSE(open.stored("H-2").entered);
    typeIntoCell(open, "H-2", Column::Colour, "#ffffff");
    CHECK(open.stored("H-2").entered);
    CHECK(open.stored("H-2").lab.L == Approx(100).margin(0.01));
}

TEST_CASE("a card's own column is shown and edited") {
    OpenThreads open;
    open.change([&](auto& state) {
        state.card = open.moor;
        state.view = app::ThreadsView::Table;
    });
    REQUIRE(open.model().columnCount() == app::kFixedColumns + 1);
    CHECK(open.model().headerData(app::kFixedColumns, Qt::Horizontal, Qt::DisplayRole) ==
          QStringLiteral("drawer"));
    const QModelIndex index = open.model().index(open.rowOf("M-1"), app::kFixedColumns);
    CHECK(index.data().toString() == QStringLiteral("upper"));
    CHECK(open.model().setData(index, QStringLiteral("lower"), Qt::EditRole));
    CHECK(open.stored("M-1").extra.front() == QStringLiteral("lower"));
}

TEST_CASE("the stash box goes in halves and its steps are undone as one") {
    OpenThreads open;
    open.choose({QStringLiteral("H-10")});
    auto* stash = open.control<app::StashBox>("Stash, skeins");
    REQUIRE(stash != nullptr);
    CHECK(stash->value() == 1.5);
    const int steps = open.document.undoStack().count();
    stash->setFocus();
    QTest::keyClick(stash, Qt::Key_Up);
    QTest::keyClick(stash, Qt::Key_Up);
    CHECK(open.stored("H-10").stash == 2.5);
    CHECK(open.document.undoStack().count() == steps + 1);
    open.document.undoStack().undo();
    CHECK(open.stored("H-10").stash == 1.5);
    CHECK(stash->value() == 1.5);
}

TEST_CASE("several threads of two cards take a stash in one step") {
    OpenThreads open;
    open.choose({QStringLiteral("H-10"), QStringLiteral("M-1")});
    auto* stash = open.control<app::StashBox>("Stash, skeins");
    REQUIRE(stash != nullptr);
    CHECK(stash->text() == QStringLiteral("various"));
    const int steps = open.document.undoStack().count();
    stash->setFocus();
    stash->selectAll();
    QTest::keyClicks(stash, QStringLiteral("3"));
    QTest::keyClick(stash, Qt::Key_Return);
    CHECK(open.stored("H-10").stash == 3);
    CHECK(open.stored("M-1").stash == 3);
    CHECK(open.document.undoStack().count() == steps + 1);
    open.document.undoStack().undo();
    CHECK(open.stored("H-10").stash == 1.5);
    CHECK(open.stored("M-1").stash == 0);
    CHECK(open.chosenCodes().size() == 2);
}

TEST_CASE("a field of the panel is saved with Enter and a refused text gives way") {
    OpenThreads open;
    open.choose({QStringLiteral("H-2")});
    typeInto(open.control<QLineEdit>("Lot"), "A7");
    CHECK(open.stored("H-2").lot == QStringLiteral("A7"));
    QSignalSpy refused(open.place.get(), &app::ThreadsPlace::refused);
    auto* length = open.control<QLineEdit>("Length, m");
    typeInto(length, "long");
    CHECK(refused.count() == 1);
    CHECK(length->text() == QStringLiteral("8"));
}

TEST_CASE("a thread edited out of the filter stays in view until the filter changes") {
    OpenThreads open;
    open.change([](auto& state) { state.onlyStash = true; });
    open.choose({QStringLiteral("H-10")});
    open.model().setData(cell(open, "H-10", Column::Stash), QStringLiteral("0"), Qt::EditRole);
    CHECK(open.codes() == QStringList{QStringLiteral("H-10")});
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-10")});
    open.change([](auto& state) { state.search = QStringLiteral("H"); });
    CHECK(open.codes().isEmpty());
}

TEST_CASE("Delete takes the chosen threads away and undo chooses them again") {
    OpenThreads open;
    auto* wall = open.place->findChild<app::WallView*>();
    open.change([](auto& state) { state.order = app::WallOrder::Code; });
    open.choose({QStringLiteral("H-2"), QStringLiteral("H-10")});
    QTest::keyClick(wall, Qt::Key_Delete);
    CHECK(open.codes().size() == 4);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-21")}); // took their place
    open.document.undoStack().undo();
    CHECK(open.codes().size() == 6);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("H-2"), QStringLiteral("H-10")});
    open.document.undoStack().redo();
    CHECK(open.codes().size() == 4);
}

TEST_CASE("threads of two cards are deleted in one step from the table") {
    OpenThreads open;
    open.showTable();
    open.choose({QStringLiteral("H-2"), QStringLiteral("M-2")});
    const int steps = open.document.undoStack().count();
    QTest::keyClick(open.place->findChild<app::TableView*>(), Qt::Key_Delete);
    CHECK(open.codes().size() == 4);
    CHECK(open.document.undoStack().count() == steps + 1);
    open.document.undoStack().undo();
    CHECK(open.codes().size() == 6);
}

TEST_CASE("the Insert key opens the row that adds a thread") {
    OpenThreads open;
    open.change([&](auto& state) {
        state.card = open.moor;
        state.onlyStash = true; // the new thread shows all the same
    });
    QTest::keyClick(open.place.get(), Qt::Key_Insert);
    auto* code = open.control<QLineEdit>("Code of the new thread");
    REQUIRE(code != nullptr);
    QTest::keyClicks(code, QStringLiteral("M-3"));
    auto* colour = open.control<QLineEdit>("Colour of the new thread, #rrggbb");
    QTest::keyClicks(colour, QStringLiteral("#000000"));
    QTest::keyClick(colour, Qt::Key_Return);
    CHECK(open.stored("M-3").entered == colour::Srgb8{0, 0, 0});
    CHECK(open.stored("M-3").extra.size() == 1);
    CHECK(open.chosenCodes() == QStringList{QStringLiteral("M-3")});
    CHECK(code->text().isEmpty());
    open.document.undoStack().undo();
    CHECK(open.stored("M-3").code.isEmpty());
}

TEST_CASE("a refused new thread keeps what was typed") {
    OpenThreads open;
    QTest::keyClick(open.place.get(), Qt::Key_Insert);
    QSignalSpy refused(open.place.get(), &app::ThreadsPlace::refused);
    auto* code = open.control<QLineEdit>("Code of the new thread");
    QTest::keyClicks(code, QStringLiteral("H-1"));
    auto* colour = open.control<QLineEdit>("Colour of the new thread, #rrggbb");
    QTest::keyClicks(colour, QStringLiteral("#123456"));
    QTest::keyClick(colour, Qt::Key_Return);
    CHECK(refused.count() == 1);
    CHECK(code->text() == QStringLiteral("H-1"));
    QTest::keyClick(code, Qt::Key_Escape);
    CHECK(open.control<QLineEdit>("Code of the new thread") == nullptr);
}
