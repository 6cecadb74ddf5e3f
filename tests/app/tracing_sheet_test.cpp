// All that was taken for one symbol, as small pictures.

#include "app/tracing_sheet_fixture.h"

#include "chart/mending.h"

#include <catch2/catch.hpp>

#include <QBuffer>
#include <QElapsedTimer>
#include <QListView>
#include <QMenu>
#include <QPushButton>
#include <QTableView>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenSheet;
using tests::OpenTraced;

namespace {

QAction* actionOf(const QMenu& menu, const QString& text) {
    for (QAction* one : menu.actions()) {
        if (one->text() == text) {
            return one;
        }
    }
    return nullptr;
}

} // namespace

TEST_CASE("the sheet shows the cells of the chosen symbol, least sure first") {
    OpenSheet open;
    CHECK(open.list.isVisible());
    CHECK(open.list.model()->rowCount() == static_cast<int>(open.countOf(1)));
    CHECK(open.list.model()->index(0, 0).data(Qt::AccessibleTextRole).toString() ==
          QStringLiteral("Column 2, row 1: 10 % sure"));
    CHECK(open.says(QStringLiteral("B, Q-8 as printed: 10 cells, 2 doubtful")));
    open.change([](app::ChartsState& state) { state.row = chart::KeyIndex{2}; });
    CHECK(open.list.model()->rowCount() == static_cast<int>(open.countOf(2)));
}

TEST_CASE("the sheet begins with the first symbol when none is chosen") {
    OpenTraced open;
    REQUIRE_FALSE(open.state().row);
    open.change([](app::ChartsState& state) { state.pageView = PageView::Symbols; });
    CHECK(open.state().row == chart::KeyIndex{0});
}

TEST_CASE("selected cells move to another symbol as one step that marks them seen") {
    OpenSheet open;
    const chart::Chart before = open.chart();
    open.clickPicture(0);
    open.clickPicture(1, Qt::ControlModifier);
    REQUIRE(open.sheet.selected().size() == 2);
    const std::vector<Cell> cells = open.sheet.selected();
    auto* move = open.control<QPushButton>("Move to another symbol");
    REQUIRE(move);
    Q_EMIT move->menu()->aboutToShow();
    QAction* action = actionOf(*move->menu(), QStringLiteral("A, Q-7 as printed"));
    REQUIRE(action);
    action->trigger();
    for (const Cell& cell : cells) {
        CHECK(open.at(cell) == 0);
        CHECK(open.seen(cell));
    }
    CHECK(open.steps() == 1);
    CHECK(open.list.model()->rowCount() == before.key[1].stitches - 2);
    CHECK(open.chart().isConsistent());
    open.undo();
    CHECK(open.chart() == before);
    CHECK_FALSE(open.seen({1, 0}));
}

TEST_CASE("selected cells become a symbol of their own with a free letter") {
    OpenSheet open;
    const chart::Chart before = open.chart();
    open.clickPicture(0);
    QTest::keyClick(&open.list, Qt::Key_P);
    const chart::Chart after = open.chart();
    REQUIRE(after.key.size() == 4);
    CHECK(after.key[3].symbol == QStringLiteral("D"));
    CHECK(after.key[3].stitches == 1);
    CHECK(open.at({1, 0}) == 3);
    CHECK(after.isConsistent());
    CHECK(open.steps() == 1);
    open.undo();
    CHECK(open.chart() == before);
}

TEST_CASE("several odd cells are picked and moved by keys alone, or by clicks alone") {
    OpenSheet open;
    QTest::keyClick(&open.list, Qt::Key_Space);
    QTest::keyClick(&open.list, Qt::Key_Right);
    QTest::keyClick(&open.list, Qt::Key_Right);
    CHECK(open.sheet.selected().size() == 1); // moving about loses nothing
    QTest::keyClick(&open.list, Qt::Key_Space);
    CHECK(open.sheet.selected().size() == 2);
    QTest::keyClick(&open.list, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(open.sheet.selected().size() == 3);
    open.clickPicture(0); // lets it go
    open.clickPicture(5);
    open.clickPicture(7, Qt::ShiftModifier);
    CHECK(open.sheet.selected().size() == 5);
    const std::vector<Cell> cells = open.sheet.selected();
    QTest::keyClick(&open.list, Qt::Key_Delete);
    for (const Cell& cell : cells) {
        CHECK(open.at(cell) == chart::kBare);
    }
    CHECK(open.steps() == 1);
}

TEST_CASE("a row that is clicked in the key leaves letters and figures to its sheet") {
    OpenSheet open(0);
    auto* key = open.control<QTableView>("Key");
    REQUIRE(key);
    QTest::mouseClick(key->viewport(), Qt::LeftButton, {},
                      key->visualRect(key->model()->index(1, 2)).center());
    REQUIRE(open.state().row == chart::KeyIndex{1});
    open.press(Qt::Key_N);
    CHECK(open.state().row == chart::KeyIndex{2});
    CHECK(open.place->window()->focusWidget() == &open.list);
    // The key's own keys stay with it.
    key->setFocus();
    open.press(Qt::Key_Up);
    CHECK(open.state().row == chart::KeyIndex{1});
    CHECK(key->hasFocus());
}

TEST_CASE("a number moves the cell that arrows have gone to, and never joins the whole symbol") {
    OpenSheet open;
    const std::size_t rows = open.chart().key.size();
    const auto all = open.countOf(1);
    QTest::keyClick(&open.list, Qt::Key_Right);
    REQUIRE(open.sheet.selected().size() == 1);
    const Cell cell = open.sheet.selected().front();
    CHECK(open.at(cell) == 1);
    QTest::keyClick(&open.list, Qt::Key_1);
    CHECK(open.chart().key.size() == rows);
    CHECK(open.at(cell) != 1);
    CHECK(open.countOf(1) == all - 1);
    CHECK(open.list.currentIndex().row() == 1); // not back to the first
    const std::vector<Cell> next = open.sheet.selected();
    REQUIRE(next.size() == 1);
    QTest::keyClick(&open.list, Qt::Key_A);
    CHECK(open.seen(next.front()));
    CHECK(open.list.currentIndex().row() == 2);
    // Escape lets go of it, and then the number is about the symbol again.
    QTest::keyClick(&open.list, Qt::Key_Right);
    QTest::keyClick(&open.list, Qt::Key_Escape);
    CHECK(open.sheet.selected().empty());
    CHECK(open.state().pageView == PageView::Symbols);
    QTest::keyClick(&open.list, Qt::Key_1);
    CHECK(open.chart().key.size() == rows - 1);
}

TEST_CASE("all cells of a symbol are no new symbol") {
    OpenSheet open;
    QTest::keyClick(&open.list, Qt::Key_A, Qt::ControlModifier);
    REQUIRE(open.sheet.selected().size() == open.countOf(1));
    CHECK_FALSE(open.control<QPushButton>("Make a new symbol")->isEnabled());
}

TEST_CASE("two symbols that are one are joined and the empty row is gone") {
    const auto to = GENERATE(chart::KeyIndex{0}, chart::KeyIndex{2});
    OpenSheet open(1);
    const chart::Chart before = open.chart();
    open.sheet.joinWith(to);
    const chart::Chart after = open.chart();
    REQUIRE(after.key.size() == 2);
    const std::size_t now = to == 0 ? 0 : 1; // rows after the one that is gone move up
    CHECK(after.key[now].symbol == before.key[to].symbol);
    CHECK(after.key[now].stitches == before.key[1].stitches + before.key[to].stitches);
    CHECK(open.state().row == chart::KeyIndex(now));
    CHECK(after.isConsistent());
    CHECK(open.steps() == 1);
    open.undo();
    CHECK(open.chart() == before);
}

TEST_CASE("with nothing selected all doubtful cells of the symbol are accepted, as one step") {
    OpenSheet open;
    REQUIRE(open.traced().doubtfulOf(1) == 2);
    const int others = open.traced().doubtfulLeft() - 2;
    QTest::keyClick(&open.list, Qt::Key_A);
    CHECK(open.traced().doubtfulOf(1) == 0);
    CHECK(open.traced().doubtfulLeft() == others);
    CHECK(open.steps() == 1);
    CHECK(open.says(QStringLiteral("B, Q-8 as printed: 10 cells")));
    QTest::keyClick(&open.list, Qt::Key_A); // nothing is left to accept
    CHECK(open.steps() == 1);
    open.undo();
    CHECK(open.traced().doubtfulOf(1) == 2);
}

TEST_CASE("bare ground has a sheet of its own, after the last symbol of the key") {
    OpenSheet open(2);
    QTest::keyClick(&open.list, Qt::Key_N);
    CHECK(open.state().bare);
    CHECK_FALSE(open.state().row);
    const auto cells = open.traced().cellsOf(chart::kBare);
    CHECK(open.list.model()->rowCount() == static_cast<int>(cells.size()));
    CHECK(cells.front() == Cell{0, 3}); // a "c" that was taken for bare ground
    CHECK(open.says(QStringLiteral("Bare ground: %1 cells, 1 doubtful").arg(cells.size())));
    SECTION("a cell that is none moves by its number") {
        open.clickPicture(0);
        QTest::keyClick(&open.list, Qt::Key_1);
        CHECK(open.at({0, 3}) == 2);
        CHECK(open.seen({0, 3}));
        CHECK(open.state().bare);
        CHECK(open.steps() == 1);
    }
    SECTION("what is doubtful of it is accepted with one key") {
        QTest::keyClick(&open.list, Qt::Key_A);
        CHECK(open.traced().doubtfulOf(chart::kBare) == 0);
        CHECK(open.seen({0, 3}));
    }
    SECTION("a row that is chosen in the key takes its place") {
        open.change([](app::ChartsState& state) { state.row = chart::KeyIndex{1}; });
        CHECK_FALSE(open.state().bare);
        CHECK(open.list.model()->rowCount() == static_cast<int>(open.countOf(1)));
    }
    SECTION("Shift+N goes back, and N round to the first") {
        QTest::keyClick(&open.list, Qt::Key_N, Qt::ShiftModifier);
        CHECK(open.state().row == chart::KeyIndex{2});
        QTest::keyClick(&open.list, Qt::Key_N);
        QTest::keyClick(&open.list, Qt::Key_N);
        CHECK(open.state().row == chart::KeyIndex{0});
    }
}

TEST_CASE("the shown symbol stays shown when rows before it go and come back") {
    OpenSheet open(0);
    open.sheet.joinWith(1);
    open.change([](app::ChartsState& state) { state.row = chart::KeyIndex{1}; });
    const int cells = open.list.model()->rowCount();
    REQUIRE(open.chart().key[1].symbol == QStringLiteral("C"));
    open.undo();
    CHECK(open.state().row == chart::KeyIndex{2});
    CHECK(open.list.model()->rowCount() == cells);
    open.document.undoStack().redo();
    CHECK(open.state().row == chart::KeyIndex{1});
}

TEST_CASE("a click on a view's button leaves the keys with the view") {
    OpenTraced open;
    const auto click = [&](const QString& text) {
        for (auto* button : open.place->findChildren<QPushButton*>()) {
            if (button->isVisible() && button->text() == text) {
                button->setFocus();
                QTest::mouseClick(button, Qt::LeftButton);
            }
        }
    };
    click(QStringLiteral("Symbol by symbol"));
    open.press(Qt::Key_N);
    CHECK(open.state().row == chart::KeyIndex{1});
    click(QStringLiteral("Cell by cell"));
    open.press(Qt::Key_Return);
    CHECK(open.seen({1, 0}));
}

TEST_CASE("a symbol that is nothing becomes bare ground, and its row is gone") {
    OpenSheet open(2);
    const chart::Chart before = open.chart();
    auto* bare = open.control<QPushButton>("All of this symbol is bare ground");
    REQUIRE(bare);
    QTest::mouseClick(bare, Qt::LeftButton);
    CHECK(open.chart().key.size() == 2);
    CHECK(open.at({2, 4}) == chart::kBare);
    CHECK(open.state().bare);
    CHECK(open.chart().isConsistent());
    open.undo();
    CHECK(open.chart() == before);
}

TEST_CASE("selected cells are moved by a number, or unpicked by Delete; Escape selects none") {
    OpenSheet open;
    open.clickPicture(0);
    CHECK(open.control<QPushButton>("Move to A, Q-7 as printed"));
    SECTION("number") {
        QTest::keyClick(&open.list, Qt::Key_1);
        CHECK(open.at({1, 0}) == 0); // most like it
        CHECK(open.chart().key.size() == 3);
    }
    SECTION("Delete") {
        QTest::keyClick(&open.list, Qt::Key_Delete);
        CHECK(open.at({1, 0}) == chart::kBare);
    }
    SECTION("Escape") {
        QTest::keyClick(&open.list, Qt::Key_Escape);
        CHECK(open.sheet.selected().empty());
        CHECK(open.state().pageView == PageView::Symbols);
        CHECK(open.control<QPushButton>("Join with A, Q-7 as printed"));
        QTest::keyClick(&open.list, Qt::Key_Escape);
        CHECK(open.state().pageView == PageView::Off);
    }
}

TEST_CASE("places are as large as the sheet has room for") {
    OpenSheet open;
    CHECK(open.list.sizeHintForIndex(open.list.model()->index(0, 0)).width() ==
          app::SheetDelegate::kMostSide);
}

TEST_CASE("selected cells are accepted together, by key, as one step") {
    OpenSheet open;
    open.clickPicture(0);
    open.clickPicture(2, Qt::ShiftModifier);
    const std::vector<Cell> cells = open.sheet.selected();
    REQUIRE(cells.size() == 3);
    QTest::keyClick(&open.list, Qt::Key_A);
    for (const Cell& cell : cells) {
        CHECK(open.seen(cell));
    }
    CHECK(open.steps() == 1);
}

TEST_CASE("Enter opens a cell of the sheet beside the page") {
    OpenSheet open;
    open.clickPicture(0);
    QTest::keyClick(&open.list, Qt::Key_Return);
    CHECK(open.state().pageView == PageView::Cells);
    CHECK(open.current() == Cell{1, 0});
}

TEST_CASE("the odd one out looks different in the sheet") {
    OpenSheet open;
    const QImage drawn = open.list.viewport()->grab().toImage();
    const auto apart = [&](int one, int other) {
        const auto picture = [&](int i) {
            const QModelIndex index = open.list.model()->index(i, 0);
            return drawn.copy(open.list.visualRect(index).adjusted(12, 12, -12, -12));
        };
        const QImage a = picture(one);
        const QImage b = picture(other);
        int sum = 0;
        for (int y = 0; y < a.height(); ++y) {
            for (int x = 0; x < a.width(); ++x) {
                sum += std::abs(qGray(a.pixel(x, y)) - qGray(b.pixel(x, y)));
            }
        }
        return sum / (a.width() * a.height());
    };
    CHECK(apart(0, 3) > 20); // an "a" among the "b"s
    CHECK(apart(3, 4) < 5);
}

TEST_CASE("a sheet of 5,000 cells is filled and drawn without cutting them all") {
    OpenTraced open;
    const std::vector<std::string> print(50, std::string(100, 'a'));
    const trace::Tracing tracing = tests::tracingOf(print, print);
    const workbox::ChartId large =
        open.document.addTracedChart(tracing.chart, app::pageOf(tracing));
    open.session.chooseChart(large);
    open.change([](app::ChartsState& state) {
        state.pageView = PageView::Cells;
        state.row = chart::KeyIndex{0};
    });
    (void)open.traced().picture(); // decoded once, and not what is measured
    QElapsedTimer timer;
    timer.start();
    open.change([](app::ChartsState& state) { state.pageView = PageView::Symbols; });
    (void)open.view().sheet().list().viewport()->grab();
    CAPTURE(timer.elapsed());
    CHECK(open.view().sheet().list().model()->rowCount() == 5000);
    CHECK(timer.elapsed() < 2000); // a few: only a catastrophe is caught on a busy machine
}

TEST_CASE("among a symbol's doubtful cells the odd one stands first, however sure it is") {
    OpenSheet open;
    trace::Tracing tracing = tests::tracingOf({"bbbb", "bbab", "bbbb"}, {"bbbb", "bbbb", "bbbb"});
    std::ranges::fill(tracing.confidence, 0.2F);
    tracing.confidence[tracing.chart.grid.indexOf({2, 1})] = 0.45F;
    open.session.chooseChart(open.document.addTracedChart(tracing.chart, app::pageOf(tracing)));
    CHECK(open.traced().cellsOf(1).front() == Cell{2, 1});
}
