// All symbols of a traced page at a glance, to join many in one step.

#include "app/tracing_fixture.h"

#include "app/tracing/pick_list.h"
#include "app/tracing/symbol_wall.h"
#include "chart/mending.h"

#include <catch2/catch.hpp>

#include <QBuffer>
#include <QMenu>
#include <QPushButton>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenTraced;

namespace {

/// The traced page with its symbols broken: of "b" the tracer made B, D and E, of "a" A and F. Two
/// rows in which nothing is worked are no symbols of the page. D stands on yellow paper.
struct BrokenPage : OpenTraced {
    app::SymbolWall& wall = view().wall();
    app::PickList& list = wall.list();

    explicit BrokenPage(PageView begin = PageView::All) {
        chart::Chart broken = chart();
        workbox::TracedPage page = *document.tracedPage(leaf);
        const auto add = [&](char sign, chart::KeyIndex like, const std::vector<Cell>& cells) {
            broken.key.push_back(broken.key[like]);
            broken.key.back().symbol = QString(QLatin1Char(sign));
            broken.key.back().code.clear();
            broken.key.back().name.clear();
            const auto row = static_cast<chart::KeyIndex>(broken.key.size() - 1);
            broken.key.back().pixel = {9, 9, static_cast<std::uint8_t>(10 * row)};
            chart::setCells(broken.grid, cells, row);
        };
        chart::setCells(broken.grid, std::vector<Cell>{{1, 0}}, 0);
        chart::setCells(broken.grid, std::vector<Cell>{{5, 1}}, 1);
        add('D', 1, {{5, 2}, {6, 2}});
        add('E', 1, {{5, 4}, {6, 4}});
        add('F', 0, {{0, 5}, {1, 5}, {2, 5}});
        chart::recount(broken);
        QImage picture = QImage::fromData(page.picture).convertToFormat(QImage::Format_RGB32);
        for (int y = 2 * page.cell; y < 3 * page.cell; ++y) {
            for (int x = 5 * page.cell; x < 7 * page.cell; ++x) {
                const QColor was = picture.pixelColor(x, y);
                picture.setPixelColor(x, y, QColor(was.red(), was.green(), was.blue() / 2));
            }
        }
        QBuffer buffer(&page.picture);
        buffer.open(QIODevice::WriteOnly);
        picture.save(&buffer, "PNG");
        leaf = document.addTracedChart(broken, page);
        session.chooseChart(leaf);
        document.undoStack().clear();
        change([begin](app::ChartsState& state) { state.pageView = begin; });
        QTest::qWait(0);
    }
    [[nodiscard]] QString signsPicked() const {
        QString signs;
        for (const chart::KeyIndex row : wall.picked()) {
            signs += chart().key[row].symbol;
        }
        return signs;
    }
    [[nodiscard]] QString signsShown() const {
        QString signs;
        for (int at = 0; at < wall.model().rowCount(); ++at) {
            signs += chart().key[wall.model().keyRow(at)].symbol;
        }
        return signs;
    }
};

} // namespace

TEST_CASE("prints of one shape stand side by side on the wall, whatever paper they are on") {
    BrokenPage open;
    REQUIRE(open.list.isVisible());
    const QString shown = open.signsShown();
    CAPTURE(shown.toStdString());
    CHECK(shown.size() == 6);
    CHECK(shown.startsWith(QStringLiteral("AF")));
    CHECK((shown.contains(QStringLiteral("BED")) || shown.contains(QStringLiteral("BDE"))));
    CHECK(open.wall.model().family(0) == open.wall.model().family(1));
    CHECK(open.wall.model().family(1) != open.wall.model().family(2));
    CHECK(open.says(QStringLiteral("6 symbols")));
}

TEST_CASE("a symbol that broke into many is joined by two keys, and the next is picked") {
    BrokenPage open;
    const chart::Chart before = open.chart();
    open.press(Qt::Key_L);
    CHECK(open.signsPicked() == QStringLiteral("AF"));
    open.press(Qt::Key_L);
    CHECK(open.signsPicked() == QStringLiteral("BDE"));
    open.press(Qt::Key_L); // round again
    CHECK(open.signsPicked() == QStringLiteral("AF"));
    open.press(Qt::Key_J);
    CHECK(open.chart().key.size() == 5);
    CHECK(open.at({0, 5}) == 0);
    CHECK(open.signsPicked() == QStringLiteral("BDE"));
    open.press(Qt::Key_J);
    CHECK(open.chart().key.size() == 3);
    CHECK(open.at({5, 2}) == 1);
    CHECK(open.at({5, 4}) == 1);
    CHECK(open.signsPicked().isEmpty());
    CHECK_FALSE(open.control<QPushButton>("Pick the next symbols that look alike")->isEnabled());
    CHECK(open.chart().isConsistent());
    CHECK(open.steps() == 2);
    open.undo();
    open.undo();
    CHECK(open.chart() == before);
    CHECK(open.signsShown().size() == 6);
}

TEST_CASE("what was picked by hand is joined into the symbol with the most cells") {
    BrokenPage open;
    const auto most = open.chart().key[0].stitches; // A has more cells than C
    REQUIRE(most > open.chart().key[2].stitches);
    const auto click = [&](chart::KeyIndex row) {
        const QModelIndex index = open.wall.model().index(*open.wall.model().placeOf(row));
        QTest::mouseClick(open.list.viewport(), Qt::LeftButton, {},
                          open.list.visualRect(index).center());
    };
    click(2);
    click(5);
    click(0);
    click(5); // let go again
    CHECK(open.signsPicked() == QStringLiteral("AC"));
    QTest::mouseClick(open.control<QPushButton>("Join the picked symbols"), Qt::LeftButton);
    CHECK(open.chart().key.size() == 5);
    CHECK(open.at({5, 1}) == 1);
    CHECK(open.at({0, 4}) == 0);
    CHECK(open.state().row == chart::KeyIndex{0});
    CHECK(open.says(QStringLiteral("2 symbols are one now, A, Q-7 as printed. Ctrl+Z takes it "
                                   "back. Alike ones stand side by side. L picks the next ones "
                                   "alike, a click or Space picks one.")));
}

TEST_CASE("keys alone pick, let go, and open a symbol of the wall") {
    BrokenPage open;
    open.press(Qt::Key_Space);
    CHECK(open.signsPicked() == QStringLiteral("A"));
    open.press(Qt::Key_Right);
    CHECK(open.signsPicked() == QStringLiteral("A")); // moving picks nothing
    CHECK(open.state().row == open.wall.model().keyRow(1));
    open.press(Qt::Key_Right, Qt::ShiftModifier);
    CHECK(open.wall.picked().size() == 3);
    open.press(Qt::Key_Escape);
    CHECK(open.wall.picked().empty());
    CHECK(open.state().pageView == PageView::All);
    const chart::KeyIndex third = open.wall.model().keyRow(2);
    open.press(Qt::Key_Return);
    CHECK(open.state().pageView == PageView::Symbols);
    CHECK(open.state().row == third);
}

TEST_CASE("dirt that was taken for symbols becomes bare ground, as one step") {
    BrokenPage open;
    open.press(Qt::Key_L);
    open.press(Qt::Key_L);
    REQUIRE(open.signsPicked() == QStringLiteral("BDE"));
    open.press(Qt::Key_Delete);
    CHECK(open.chart().key.size() == 3);
    CHECK(open.at({5, 2}) == chart::kBare);
    CHECK(open.at({5, 0}) == chart::kBare);
    CHECK(open.chart().isConsistent());
    CHECK(open.steps() == 1);
}

TEST_CASE("a chart that is chosen from the menu has the keys") {
    BrokenPage open;
    open.place->resize(1000, 700); // a menu stands in for the list
    auto* charts = open.control<QPushButton>("Charts of the workbox");
    REQUIRE(charts->isVisible());
    charts->setFocus();
    Q_EMIT charts->menu()->aboutToShow();
    for (QAction* action : charts->menu()->actions()) {
        if (action->isChecked()) {
            action->trigger();
            break;
        }
    }
    CHECK(open.place->window()->focusWidget() == &open.list);
}

TEST_CASE("the wall is what comes back when the program is opened again") {
    BrokenPage open(PageView::All);
    CHECK(open.document.store().setting(QStringLiteral("page_view")).toInt() ==
          static_cast<int>(PageView::All));
    open.press(Qt::Key_Escape);
    CHECK(open.state().pageView == PageView::Off);
}

TEST_CASE("a symbol that stays takes the thread of one that goes, where it has none") {
    BrokenPage open;
    chart::Chart named = open.chart();
    named.key[0].card = QStringLiteral("card");
    std::swap(named.key[0].code, named.key[5].code); // F has the thread, A the most cells
    std::swap(named.key[0].name, named.key[5].name);
    const chart::Chart joined = app::withRowsJoined(named, 5, 0);
    REQUIRE(joined.key.size() == 5);
    CHECK(joined.key[0].symbol == QStringLiteral("A"));
    CHECK(joined.key[0].code == QStringLiteral("Q-7"));
    CHECK(joined.key[0].name == QStringLiteral("as printed"));
    CHECK(joined.key[0].pixel == named.key[5].pixel);
    CHECK(joined.isConsistent());
    // One that has a thread keeps it.
    named.key[0].code = QStringLiteral("own");
    CHECK(app::withRowsJoined(named, 5, 0).key[0].code == QStringLiteral("own"));
}

TEST_CASE("a row of backstitch is shown by a piece of its line, as printed") {
    OpenTraced open;
    chart::Chart lined = open.chart();
    workbox::TracedPage page = *open.document.tracedPage(open.leaf);
    QImage picture = QImage::fromData(page.picture).convertToFormat(QImage::Format_RGB32);
    lined.key.push_back(lined.key[1]);
    lined.key.back().symbol = QStringLiteral("Z");
    lined.key.back().pixel = {200, 10, 10};
    chart::recount(lined);
    CHECK(open.traced().printOf(2, 22).isNull() == false);
    lined.lines.push_back({6, 8, 6, 12, 3}); // in half cells: down from the corner of cell 3, 4
    for (int y = 4 * page.cell; y < 6 * page.cell; ++y) {
        for (int x = -2; x < 2; ++x) {
            picture.setPixelColor(3 * page.cell + x, y, Qt::red);
        }
    }
    QBuffer buffer(&page.picture);
    buffer.open(QIODevice::WriteOnly);
    REQUIRE(picture.save(&buffer, "PNG"));
    open.session.chooseChart(open.document.addTracedChart(lined, page));
    const QImage print = open.traced().printOf(3, 22);
    REQUIRE_FALSE(print.isNull());
    int reds = 0;
    for (int y = 0; y < print.height(); ++y) {
        for (int x = 0; x < print.width(); ++x) {
            const QColor pixel = print.pixelColor(x, y);
            reds += pixel.red() > 180 && pixel.green() < 90 ? 1 : 0;
        }
    }
    CHECK(reds >= print.height() / 2); // along all of it
}
