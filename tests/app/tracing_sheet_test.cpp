// All that was taken for one symbol, as small pictures.

#include "app/tracing_fixture.h"

#include "app/tracing/contact_sheet.h"

#include <catch2/catch.hpp>

#include <QElapsedTimer>
#include <QListView>
#include <QMenu>
#include <QPushButton>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenTraced;

namespace {

struct OpenSheet : OpenTraced {
    app::ContactSheet& sheet = view().sheet();
    QListView& list = sheet.list();

    explicit OpenSheet(chart::KeyIndex row = 1) {
        change([row](app::ChartsState& state) {
            state.pageView = PageView::Symbols;
            state.row = row;
        });
        QTest::qWait(0);
    }
    void clickPicture(int picture, Qt::KeyboardModifiers modifiers = {}) const {
        const QRect at = list.visualRect(list.model()->index(picture, 0));
        QTest::mouseClick(list.viewport(), Qt::LeftButton, modifiers, at.center());
    }
    [[nodiscard]] std::size_t countOf(chart::KeyIndex row) const {
        return static_cast<std::size_t>(chart().key[row].stitches);
    }
};

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
    CHECK(open.says(QStringLiteral("B, Q-8 as printed: 10 cells")));
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
    auto* move = open.control<QPushButton>("Move to another symbol…");
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
    CHECK(apart(0, 3) > 30); // an "a" among the "b"s
    CHECK(apart(3, 4) < 3);
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
