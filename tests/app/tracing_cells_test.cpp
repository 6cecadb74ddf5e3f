// A traced chart beside its page, cell by cell.

#include "app/tracing_fixture.h"

#include "app/charts/chart_list.h"
#include "app/charts/key_edits.h"
#include "app/tracing/pair_canvas.h"

#include <catch2/catch.hpp>

#include <QLabel>
#include <QPushButton>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenTraced;

TEST_CASE("beside the page begins with the cell that is least sure") {
    OpenTraced open;
    CHECK(open.current() == Cell{1, 0});
    CHECK(open.says(QStringLiteral("4 doubtful cells left")));
    CHECK(open.says(QStringLiteral("B, Q-8 as printed: 10 % sure")));
    CHECK_FALSE(open.canvas().isVisible());
    CHECK(open.view().isVisible());
}

TEST_CASE("only a traced chart can be seen beside its page") {
    OpenTraced open;
    const auto* beside = open.control<QPushButton>("Beside the page");
    REQUIRE(beside);
    CHECK(beside->isChecked());
    open.session.chooseChart(open.gate);
    CHECK_FALSE(open.control<QPushButton>("Beside the page"));
    CHECK(open.state().pageView == PageView::Off);
    CHECK(open.canvas().isVisible());
    open.session.chooseChart(open.leaf);
    QTest::mouseClick(open.control<QPushButton>("Beside the page"), Qt::LeftButton);
    CHECK(open.state().pageView == PageView::Cells);
}

TEST_CASE("keys go through the doubtful cells, least sure first, on and back") {
    struct Case {
        Qt::Key key;
        Qt::KeyboardModifiers modifiers;
        Cell cell;
    };
    const Case cases[] = {
        {Qt::Key_N, Qt::NoModifier, {5, 1}},    {Qt::Key_PageDown, Qt::NoModifier, {0, 3}},
        {Qt::Key_N, Qt::NoModifier, {6, 4}},    {Qt::Key_N, Qt::NoModifier, {1, 0}}, // begins again
        {Qt::Key_N, Qt::ShiftModifier, {6, 4}}, {Qt::Key_PageUp, Qt::NoModifier, {0, 3}}};
    OpenTraced open;
    for (const Case& one : cases) {
        open.press(one.key, one.modifiers);
        CAPTURE(one.key);
        CHECK(open.current() == one.cell);
    }
    CHECK(open.steps() == 0);
}

TEST_CASE("Enter and Space accept a cell as it is and go on, and undo takes that back") {
    OpenTraced open;
    const chart::Chart before = open.chart();
    open.press(Qt::Key_Return);
    CHECK(open.seen({1, 0}));
    CHECK(open.current() == Cell{5, 1});
    open.press(Qt::Key_Space);
    CHECK(open.seen({5, 1}));
    CHECK(open.says(QStringLiteral("2 doubtful cells left")));
    CHECK(open.chart() == before);
    CHECK(open.steps() == 2);
    open.undo();
    CHECK_FALSE(open.seen({5, 1}));
    CHECK(open.says(QStringLiteral("3 doubtful cells left")));
    open.press(Qt::Key_N, Qt::ShiftModifier);
    CHECK(open.current() == Cell{5, 1});
}

TEST_CASE("all doubtful cells that look the same are accepted by one key, bare ones too") {
    OpenTraced open;
    // A row of blank cells that tracing was not sure of, and one that is not blank at all.
    std::vector<Cell> blank;
    for (int column = 1; column < 8; ++column) {
        blank.push_back({column, 3});
    }
    workbox::TracedPage page = *open.document.tracedPage(open.leaf);
    for (const Cell& cell : blank) {
        page.confidence[open.chart().grid.indexOf(cell)] = 100;
    }
    const workbox::ChartId again = open.document.addTracedChart(open.chart(), page);
    open.document.undoStack().clear();
    open.session.chooseChart(again);
    open.change([](app::ChartsState& state) { state.pageView = PageView::Cells; });
    QTest::qWait(0);
    open.traced().goTo(blank[2]);
    CHECK(open.control<QPushButton>("Accept all like it")->text() ==
          QStringLiteral("All 7 like it"));
    open.press(Qt::Key_Return, Qt::ShiftModifier);
    for (const Cell& cell : blank) {
        CHECK(open.traced().isSeen(cell));
    }
    CHECK_FALSE(open.traced().isSeen({0, 3})); // a "c"
    CHECK(open.steps() == 1);
    CHECK(open.traced().isDoubtful(*open.current()));
    open.undo();
    CHECK_FALSE(open.traced().isSeen(blank[0]));
}

TEST_CASE("the chart alone says how many cells are still doubtful") {
    OpenTraced open;
    open.press(Qt::Key_Escape);
    CHECK(open.says(QStringLiteral("8 × 6 stitches, 4 doubtful cells left")));
}

TEST_CASE("beside the page the chart has the room of the list, and no hint about pictures") {
    OpenTraced open;
    const auto hint = [&] {
        for (const auto* label : open.place->findChildren<QLabel*>()) {
            if (label->isVisible() &&
                label->text().startsWith(QStringLiteral("A chart picture is a PNG"))) {
                return true;
            }
        }
        return false;
    };
    CHECK_FALSE(open.place->findChild<app::ChartList*>()->isVisible());
    CHECK(open.control<QPushButton>("Charts of the workbox"));
    open.press(Qt::Key_Escape);
    CHECK(open.place->findChild<app::ChartList*>()->isVisible());
    CHECK_FALSE(hint());
    open.session.chooseChart(open.gate);
    CHECK(hint());
}

TEST_CASE("a cell is changed by a number, a letter or Delete, as one step that marks it seen") {
    OpenTraced open;
    const chart::Chart before = open.chart();
    SECTION("1 is what is printed most like it") {
        open.press(Qt::Key_1);
        CHECK(open.at({1, 0}) == 0);
    }
    SECTION("a row's letter") {
        open.press(Qt::Key_A);
        CHECK(open.at({1, 0}) == 0);
        // What was hit by mistake is told, until something else is done.
        const QString told = QStringLiteral("Now A, Q-7 as printed. Ctrl+Z takes it back. Next is "
                                            "C, Q-9 as printed: 14 % sure");
        CHECK(open.says(told));
        open.press(Qt::Key_N);
        CHECK_FALSE(open.says(told));
        open.press(Qt::Key_N, Qt::ShiftModifier);
    }
    SECTION("Delete is bare ground") {
        open.press(Qt::Key_Delete);
        CHECK(open.at({1, 0}) == chart::kBare);
    }
    CHECK(open.seen({1, 0}));
    CHECK(open.current() == Cell{5, 1});
    CHECK(open.steps() == 1);
    CHECK(open.chart().isConsistent());
    open.undo();
    CHECK(open.chart() == before);
    CHECK_FALSE(open.seen({1, 0}));
}

TEST_CASE("the choices are in the order of how like they are printed") {
    OpenTraced open;
    CHECK(open.traced().nearestTo({1, 0}, 9) == std::vector<chart::KeyIndex>{0, 2});
    CHECK(open.traced().nearestTo({5, 1}, 9).front() == 1);
    CHECK(open.traced().nearestTo({0, 3}, 9).front() == 2);
    CHECK(open.traced().nearestTo({0, 3}, 2).size() == 2);
    auto* button = open.control<QPushButton>("Change to A, Q-7 as printed");
    REQUIRE(button);
    QTest::mouseClick(button, Qt::LeftButton);
    CHECK(open.at({1, 0}) == 0);
}

TEST_CASE("a key that means no row changes nothing") {
    OpenTraced open;
    open.press(Qt::Key_9);
    open.press(Qt::Key_X);
    CHECK(open.steps() == 0);
    CHECK(open.current() == Cell{1, 0});
}

TEST_CASE("N goes on whatever the rows are called: it never changes a cell") {
    OpenTraced open;
    chart::Chart after = open.chart();
    after.key[2].symbol = QStringLiteral("N");
    open.document.changeChart(open.leaf, after, QStringLiteral("x"));
    const int steps = open.steps();
    open.press(Qt::Key_N);
    CHECK(open.current() == Cell{5, 1});
    CHECK(open.steps() == steps);
    CHECK(open.at({1, 0}) == 1);
    CHECK(app::withNewRow(after).key.back().symbol != QStringLiteral("N"));
}

TEST_CASE("a cell at the chart's edge is shown with as much of the chart as there is room for") {
    OpenTraced open;
    auto* half = open.view().findChildren<app::PairCanvas*>().front();
    for (const Cell& cell : {Cell{0, 0}, Cell{7, 5}, Cell{7, 0}}) {
        drawing::View view = half->view();
        view.cell = 120; // all of it has no room
        view.origin = {3000, 3000};
        half->setView(view);
        half->reveal(cell, app::PairCanvas::Size::Readable);
        const QRectF chart(half->view().origin, QSizeF(8, 6) * half->view().cell);
        const QRectF at(drawing::fromCells(half->view(), QPointF(cell.column, cell.row)),
                        QSizeF(1, 1) * half->view().cell);
        CHECK(QRectF(half->rect()).contains(at));
        CHECK(chart.left() < 0.1 * half->width());
        CHECK(chart.right() > 0.9 * half->width());
        CHECK(chart.bottom() > 0.9 * half->height());
    }
}

TEST_CASE("a click makes a cell the current one in either half, and a change there stays") {
    OpenTraced open;
    for (auto* half : open.view().findChildren<app::PairCanvas*>()) {
        open.traced().goTo({{0, 0}});
        const QPointF at = drawing::fromCells(half->view(), {7.5, 2.5});
        QTest::mouseClick(half, Qt::LeftButton, {}, at.toPoint());
        CHECK(open.current() == Cell{7, 2});
    }
    open.press(Qt::Key_C);
    CHECK(open.at({7, 2}) == 2);
    CHECK(open.current() == Cell{7, 2}); // it was not doubtful: nothing to hurry on from
}

TEST_CASE("arrow keys go from cell to cell and stop at the edge") {
    OpenTraced open;
    open.press(Qt::Key_Right);
    open.press(Qt::Key_Down);
    CHECK(open.current() == Cell{2, 1});
    for (int i = 0; i < 9; ++i) {
        open.press(Qt::Key_Right);
    }
    CHECK(open.current() == Cell{7, 1});
}

TEST_CASE("both halves show the same part, whichever is moved or zoomed") {
    OpenTraced open;
    const auto halves = open.view().findChildren<app::PairCanvas*>();
    REQUIRE(halves.size() == 2);
    for (int moved = 0; moved < 2; ++moved) {
        drawing::View view = halves[moved]->view();
        view.cell = 33 + moved;
        view.origin = {-40, 12.0 + moved};
        halves[moved]->setView(view);
        CHECK(halves[1 - moved]->view().origin == halves[moved]->view().origin);
        CHECK(halves[1 - moved]->view().cell == 33 + moved);
    }
}

TEST_CASE("the current cell is outlined and a doubtful one framed in both halves") {
    OpenTraced open;
    for (auto* half : open.view().findChildren<app::PairCanvas*>()) {
        const QImage before = half->grab().toImage();
        open.traced().goTo({{4, 2}});
        const QImage after = half->grab().toImage();
        const QRect cell =
            QRectF(drawing::fromCells(half->view(), {4, 2}), QSizeF(1, 1) * half->view().cell)
                .toAlignedRect()
                .adjusted(-2, -2, 2, 2);
        CHECK_FALSE(before.copy(cell) == after.copy(cell));
        const QRect doubtful =
            QRectF(drawing::fromCells(half->view(), {6, 4}), QSizeF(1, 1) * half->view().cell)
                .toAlignedRect();
        open.traced().accept(std::vector<Cell>{{6, 4}});
        CHECK_FALSE(half->grab().toImage().copy(doubtful) == after.copy(doubtful));
        open.undo();
        open.traced().goTo({{1, 0}});
    }
}

TEST_CASE("the last doubtful cell leaves nothing to go on to") {
    OpenTraced open;
    for (int i = 0; i < 4; ++i) {
        open.press(Qt::Key_Return);
    }
    CHECK(open.says(QStringLiteral("No doubtful cells left")));
    CHECK_FALSE(open.control<QPushButton>("Next doubtful")->isEnabled());
    const auto last = open.current();
    open.press(Qt::Key_N);
    CHECK(open.current() == last);
}

TEST_CASE("closed half way, the work goes on where it was") {
    OpenTraced open;
    open.press(Qt::Key_A);
    open.press(Qt::Key_Return);
    const workbox::Document again(open.folder.filePath(QStringLiteral("workbox.sqlite")));
    CHECK(*again.chart(open.leaf) == open.chart());
    CHECK(*again.tracedPage(open.leaf) == *open.document.tracedPage(open.leaf));
    CHECK(again.tracedPage(open.leaf)->seen[1] == 1);
}

TEST_CASE("Escape goes back to the chart alone, where figures choose modes again") {
    OpenTraced open;
    open.press(Qt::Key_Escape);
    CHECK(open.state().pageView == PageView::Off);
    CHECK(open.canvas().isVisible());
    open.press(Qt::Key_2);
    CHECK(open.state().mode == app::MendMode::Stitch);
    CHECK(open.steps() == 0);
}

TEST_CASE("what a hand stitches in the chart alone needs no second look") {
    OpenTraced open;
    open.press(Qt::Key_Escape);
    open.setMode(app::MendMode::Stitch, chart::KeyIndex{0});
    open.OpenCharts::click(1, 0);
    CHECK(open.at({1, 0}) == 0);
    CHECK(open.seen({1, 0}));
    CHECK_FALSE(open.seen({5, 1}));
    CHECK(open.steps() == 1);
}

TEST_CASE("in a narrow window there are fewer choices, and none is cut off") {
    OpenTraced open;
    chart::Chart wide = open.chart();
    for (int i = 0; i < 20; ++i) {
        chart::KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(10 * i), 3, 3};
        row.symbol = QStringLiteral("x%1").arg(i);
        wide.key.push_back(row);
    }
    open.document.changeChart(open.leaf, wide, QStringLiteral("x"));
    const auto shown = [&] {
        int count = 0;
        for (const auto* button : open.view().findChildren<QPushButton*>()) {
            if (button->isVisible() && button->text().size() == 1) {
                ++count;
                CHECK(open.view().rect().contains(
                    QRect(button->mapTo(&open.view(), QPoint()), button->size())));
            }
        }
        return count;
    };
    CHECK(shown() == 9);
    open.place->resize(1100, 600); // the list of charts goes first
    open.place->resize(870, 600);
    QTest::qWait(0);
    CHECK(open.place->width() == 870);
    CAPTURE(open.view().width());
    CHECK(shown() < 9);
    open.press(Qt::Key_9); // has no button
    CHECK(open.current() == Cell{1, 0});
}
