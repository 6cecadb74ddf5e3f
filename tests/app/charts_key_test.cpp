#include "app/charts_fixture.h"

#include "app/charts/key_editors.h"
#include "app/charts/key_page.h"
#include "app/charts/key_table.h"
#include "app/charts/symbol_button.h"
#include "app/charts/thread_field.h"

#include <catch2/catch.hpp>

#include <QLabel>
#include <QListWidget>
#include <QMenu>
#include <QPushButton>
#include <QSpinBox>

#include <algorithm>

using namespace otherskein;
using tests::OpenCharts;

namespace {

struct OpenKey : OpenCharts {
    app::KeyTable& table = *place->findChild<app::KeyTable*>();
    app::ThreadField& thread = *place->findChild<app::ThreadField*>();

    void choose(chart::KeyIndex row) {
        change([row](app::ChartsState& state) { state.row = row; });
    }
    [[nodiscard]] QString cell(int row, app::KeyColumn column) const {
        return table.model()->index(row, static_cast<int>(column)).data().toString();
    }
};

} // namespace

TEST_CASE("the key says how much of what") {
    OpenKey open;
    REQUIRE(open.table.model()->rowCount() == 3);
    CHECK(open.cell(0, app::KeyColumn::Thread) == QStringLiteral("Q-1 Quay 1"));
    CHECK(open.cell(0, app::KeyColumn::Stitches) == QStringLiteral("17, 61 %"));
    CHECK(open.cell(2, app::KeyColumn::Stitches) == QStringLiteral("none"));
    CHECK(open.cell(1, app::KeyColumn::Strands) == QStringLiteral("2"));
}

TEST_CASE("no skeins are to be bought before a thread is chosen") {
    OpenKey open;
    const auto says = [&](const QString& text) {
        const auto labels = open.place->findChildren<QLabel*>();
        return std::ranges::any_of(
            labels, [&](const QLabel* one) { return one->isVisible() && one->text() == text; });
    };
    auto* list = open.place->findChild<app::KeyPage*>()->findChild<QPushButton*>();
    CHECK(says(QStringLiteral("28 stitches in 3 threads")));
    chart::Chart chart = open.stored();
    for (chart::KeyRow& row : chart.key) {
        row.card.clear();
        row.code.clear();
        row.name.clear();
    }
    open.document.changeChart(open.gate, chart, QStringLiteral("forget the threads"));
    CHECK(QTest::qWaitFor([&] { return says(QStringLiteral("No threads chosen yet")); }));
    CHECK(says(QStringLiteral("28 stitches in 3 symbols")));
    CHECK_FALSE(list->isEnabled());
}

TEST_CASE("a row that only lines name is marked as backstitch") {
    OpenKey open;
    chart::Chart chart = open.stored();
    chart.lines = {{0, 0, 2, 2, 2}, {2, 2, 4, 2, 2}};
    open.document.changeChart(open.gate, chart, QStringLiteral("lines"));
    CHECK(open.cell(2, app::KeyColumn::Stitches) == QStringLiteral("2 lines, backstitch"));
}

TEST_CASE("the arrow keys of the key choose the row to stitch with") {
    OpenKey open;
    open.table.setFocus();
    QTest::keyClick(&open.table, Qt::Key_Down);
    const auto first = open.state().row;
    REQUIRE(first);
    QTest::keyClick(&open.table, Qt::Key_Down);
    CHECK(open.state().row == chart::KeyIndex(*first + 1));
    QTest::keyClick(&open.table, Qt::Key_2);
    CHECK(open.state().mode == app::MendMode::Stitch);
}

TEST_CASE("a thread that is typed becomes the row's, and undo brings the old one back") {
    OpenKey open;
    const chart::Chart before = open.stored();
    open.choose(1);
    open.table.setFocus();
    QTest::keyClick(&open.table, Qt::Key_Return);
    CHECK(open.thread.hasFocus());
    QTest::keyClicks(&open.thread, QStringLiteral("q-7"));
    CHECK(open.stored() == before); // nothing counts before Enter
    QTest::keyClick(&open.thread, Qt::Key_Return);
    const chart::KeyRow after = open.stored().key[1];
    CHECK(after.card == QStringLiteral("quay"));
    CHECK(after.code == QStringLiteral("Q-7"));
    CHECK(after.name == QStringLiteral("Rust"));
    CHECK(after.pixel == colour::Srgb8{0xa0, 0x40, 0x20});
    CHECK(after.stitches == before.key[1].stitches);
    CHECK(open.thread.text() == QStringLiteral("Q-7 Rust"));
    open.undo();
    CHECK(open.stored() == before);
    CHECK(open.thread.text() == QStringLiteral("Q-2 Quay 2"));
}

TEST_CASE("threads are typed row after row without leaving the field") {
    OpenKey open;
    open.choose(0);
    open.table.setFocus();
    QTest::keyClick(&open.table, Qt::Key_Return);
    QTest::keyClicks(&open.thread, QStringLiteral("q-7"));
    QTest::keyClick(&open.thread, Qt::Key_Return);
    QTest::keyClick(&open.thread, Qt::Key_Down);
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(open.thread.hasFocus());
    CHECK(open.thread.selectedText() == open.thread.text()); // typing writes over it
    QTest::keyClicks(&open.thread, QStringLiteral("#445d76"));
    QTest::keyClick(&open.thread, Qt::Key_Return);
    CHECK(open.stored().key[0].code == QStringLiteral("Q-7"));
    CHECK(open.stored().key[1].pixel == colour::Srgb8{0x44, 0x5d, 0x76});
    QTest::keyClick(&open.thread, Qt::Key_Up);
    QTest::keyClick(&open.thread, Qt::Key_Up); // none above the first
    CHECK(open.state().row == chart::KeyIndex{0});
    QTest::keyClicks(&open.thread, QStringLiteral("zz"));
    QTest::keyClick(&open.thread, Qt::Key_Down); // half typed: the row stays
    CHECK(open.state().row == chart::KeyIndex{0});
}

TEST_CASE("the threads that fit are listed within the window") {
    OpenKey open;
    // With room beside it on the screen, whose edge would keep the list within it too.
    open.place->move(-600, 0);
    open.choose(0);
    open.thread.setFocus();
    QTest::keyClicks(&open.thread, QStringLiteral("q"));
    const QWidget* popup = QApplication::activePopupWidget();
    REQUIRE(popup);
    const QRect window(open.place->mapToGlobal(QPoint()), open.place->size());
    CHECK(popup->geometry().right() <= window.right());
    QTest::keyClick(&open.thread, Qt::Key_Escape);
}

TEST_CASE("two rows of one thread keep pixels of their own") {
    OpenKey open;
    for (const chart::KeyIndex row : {chart::KeyIndex{0}, chart::KeyIndex{1}}) {
        open.choose(row);
        open.thread.setFocus();
        QTest::keyClicks(&open.thread, QStringLiteral("tar"));
        QTest::keyClick(&open.thread, Qt::Key_Return);
    }
    const chart::Chart after = open.stored();
    CHECK(after.key[0].code == after.key[1].code);
    CHECK_FALSE(after.key[0].pixel == after.key[1].pixel);
    CHECK(after.isConsistent());
}

TEST_CASE("a text that means no thread is refused and changes nothing") {
    OpenKey open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    open.choose(0);
    open.thread.setFocus();
    QTest::keyClicks(&open.thread, QStringLiteral("heron"));
    QTest::keyClick(&open.thread, Qt::Key_Return);
    REQUIRE(refused.count() == 1);
    CHECK(refused.front().front().toString().contains(QStringLiteral("“heron”")));
    CHECK(open.steps() == 0);
    CHECK(open.thread.text() == QStringLiteral("Q-1 Quay 1"));
}

TEST_CASE("Escape gives up a half-typed thread") {
    OpenKey open;
    // With room beside it on the screen, whose edge would keep the list within it too.
    open.place->move(-600, 0);
    open.choose(0);
    open.thread.setFocus();
    QTest::keyClicks(&open.thread, QStringLiteral("q"));
    QTest::keyClick(&open.thread, Qt::Key_Escape);
    CHECK(open.thread.text() == QStringLiteral("Q-1 Quay 1"));
    CHECK(open.state().row == chart::KeyIndex{0});
}

TEST_CASE("digits typed as a thread are no modes") {
    OpenKey open;
    open.choose(0);
    open.thread.setFocus();
    QTest::keyClicks(&open.thread, QStringLiteral("2"));
    CHECK(open.thread.text() == QStringLiteral("2"));
    CHECK(open.state().mode == app::MendMode::Look);
}

TEST_CASE("a sign is picked from the drawn set, and one that another row has cannot be") {
    OpenKey open;
    open.choose(0);
    auto* button = open.place->findChild<app::SymbolButton*>();
    QTest::mouseClick(button, Qt::LeftButton);
    auto* set = button->findChild<QListWidget*>();
    REQUIRE(set->isVisible());
    CHECK(set->count() == drawing::symbolCount());
    CHECK_FALSE(set->item(1)->flags().testFlag(Qt::ItemIsEnabled)); // row 1 has it
    set->setCurrentRow(7);
    QTest::keyClick(set, Qt::Key_Return);
    CHECK_FALSE(set->isVisible());
    CHECK(open.stored().key[0].symbol == drawing::symbolName(7));
    open.undo();
    CHECK(open.stored().key[0].symbol == drawing::symbolName(0));
}

TEST_CASE("strands that are stepped up one after the other are one step of undo") {
    OpenKey open;
    open.choose(1);
    auto* strands = open.control<QSpinBox>("Strands of this row");
    strands->setFocus();
    QTest::keyClick(strands, Qt::Key_Up);
    QTest::keyClick(strands, Qt::Key_Up);
    CHECK(open.stored().key[1].strands == 4);
    CHECK(open.steps() == 1);
    open.undo();
    CHECK(open.stored().key[1].strands == 2);
    CHECK(strands->value() == 2);
}

TEST_CASE("a row is added, and its thread is asked for") {
    OpenKey open;
    QTest::mouseClick(open.control<QPushButton>("Add a row"), Qt::LeftButton);
    const chart::Chart after = open.stored();
    REQUIRE(after.key.size() == 4);
    CHECK(open.state().row == chart::KeyIndex{3});
    CHECK(open.thread.hasFocus());
    CHECK(drawing::symbolNamed(after.key[3].symbol) == 3);
    CHECK(after.isConsistent());
    open.undo();
    CHECK(open.stored().key.size() == 3);
    CHECK_FALSE(open.state().row);
}

TEST_CASE("a row without stitches is removed, one with stitches is refused") {
    OpenKey open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    open.choose(0);
    open.table.setFocus();
    QTest::keyClick(&open.table, Qt::Key_Delete);
    CHECK(open.stored().key.size() == 3);
    REQUIRE(refused.count() == 1);
    open.choose(2);
    QTest::keyClick(&open.table, Qt::Key_Delete);
    CHECK(open.stored().key.size() == 2);
    CHECK(refused.count() == 1);
    open.undo();
    CHECK(open.stored().key.size() == 3);
}

TEST_CASE("a row is replaced with another one everywhere") {
    OpenKey open;
    const chart::Chart before = open.stored();
    open.choose(0);
    auto* button = open.control<QPushButton>("Replace with");
    Q_EMIT button->menu()->aboutToShow();
    const QList<QAction*> others = button->menu()->actions();
    REQUIRE(others.size() == 2); // every row but itself
    CHECK(others.front()->text() == QStringLiteral("Q-2 Quay 2"));
    others.front()->trigger();
    const chart::Chart after = open.stored();
    CHECK(after.key[0].stitches == 0);
    CHECK(after.key[1].stitches == before.key[0].stitches + before.key[1].stitches);
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(open.steps() == 1);
    open.undo();
    CHECK(open.stored() == before);
}
