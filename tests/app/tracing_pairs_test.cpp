// Two symbols of a traced page that may be one.

#include "app/tracing_sheet_fixture.h"

#include "app/tracing/other_symbol.h"
#include "chart/mending.h"

#include <catch2/catch.hpp>

#include <QBuffer>
#include <QListView>
#include <QPushButton>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenSheet;
using tests::OpenTraced;

TEST_CASE("a symbol that was taken for two is offered as a pair and joined by one key") {
    OpenTraced open;
    // All "b"s are one print, read as B in the upper rows and as D below.
    chart::Chart split = open.chart();
    split.key.push_back(split.key[1]);
    split.key.back().symbol = QStringLiteral("D");
    split.key.back().pixel = {9, 9, 9};
    chart::setCells(split.grid, std::vector<Cell>{{5, 4}, {6, 4}}, 3);
    chart::recount(split);
    open.document.changeChart(open.leaf, split, QStringLiteral("x"));
    open.document.undoStack().clear();
    open.change([](app::ChartsState& state) { state.pageView = PageView::Symbols; });
    QTest::qWait(0);
    QListView& list = open.view().sheet().list();
    REQUIRE(open.traced().alikePairs().front().row == 3); // the smaller of the two
    CHECK(open.traced().alikePairs().front().other == 1);
    QTest::keyClick(&list, Qt::Key_L);
    REQUIRE(open.state().row == chart::KeyIndex{3});
    CHECK(open.control<QPushButton>("Join with B, Q-8 as printed"));
    const auto& other = *open.view().sheet().findChild<app::OtherSymbol*>();
    REQUIRE(other.isVisible());
    CHECK(other.row() == chart::KeyIndex{1});
    CHECK(other.title() ==
          QStringLiteral("B, Q-8 as printed: %1 cells").arg(open.chart().key[1].stitches));
    const auto key = GENERATE(Qt::Key_J, Qt::Key_1);
    QTest::keyClick(&list, key);
    CHECK(open.chart().key.size() == 3);
    CHECK(open.at({5, 4}) == 1);
    // J goes on to the next two; a figure stays with what has become of these.
    CHECK(other.isVisible() == (key == Qt::Key_J));
    CHECK(open.state().row ==
          (key == Qt::Key_J ? open.traced().alikePairs().front().row : chart::KeyIndex{1}));
    CHECK(open.steps() == 1);
    CHECK(open.chart().isConsistent());
}

TEST_CASE("paper in the shade is offered as bare ground, and becomes it by one key") {
    OpenTraced open;
    // Blank cells that were taken for a symbol, darker than the rest of the page.
    chart::Chart shaded = open.chart();
    workbox::TracedPage page = *open.document.tracedPage(open.leaf);
    QImage picture = QImage::fromData(page.picture).convertToFormat(QImage::Format_RGB32);
    shaded.key.push_back(shaded.key[1]);
    shaded.key.back().symbol = QStringLiteral("D");
    shaded.key.back().pixel = {200, 200, 200};
    const std::vector<Cell> shade{{4, 5}, {5, 5}, {6, 5}, {7, 5}};
    chart::setCells(shaded.grid, shade, 3);
    chart::recount(shaded);
    for (int y = 5 * page.cell; y < 6 * page.cell; ++y) {
        for (int x = 4 * page.cell; x < 8 * page.cell; ++x) {
            picture.setPixelColor(x, y, picture.pixelColor(x, y).darker(125));
        }
    }
    QBuffer buffer(&page.picture);
    buffer.open(QIODevice::WriteOnly);
    REQUIRE(picture.save(&buffer, "PNG"));
    open.session.chooseChart(open.document.addTracedChart(shaded, page));
    open.change([](app::ChartsState& state) { state.pageView = PageView::Symbols; });
    QTest::qWait(0);
    QListView& list = open.view().sheet().list();
    QTest::keyClick(&list, Qt::Key_L);
    REQUIRE(open.state().row == chart::KeyIndex{3});
    CHECK(open.says(
        QStringLiteral("Is D, Q-8 as printed bare ground? J says so, L shows the next two.")));
    QTest::keyClick(&list, Qt::Key_J);
    const auto after = open.document.chart(*open.session.chartId());
    CHECK(after->key.size() == 3);
    CHECK(after->grid.at({5, 5}) == chart::kBare);
}

TEST_CASE("pairs that look alike are shown one after another, then from the first again") {
    OpenSheet open;
    const auto pairs = open.traced().alikePairs();
    REQUIRE(pairs.size() >= 2);
    for (std::size_t next = 0; next <= pairs.size(); ++next) {
        QTest::keyClick(&open.list, Qt::Key_L);
        CHECK(open.state().row == pairs[next % pairs.size()].row);
    }
    CHECK(open.steps() == 0);
}

TEST_CASE("two that look alike are both shown, until something else is done") {
    OpenSheet open;
    auto& other = *open.sheet.findChild<app::OtherSymbol*>();
    CHECK_FALSE(other.isVisible());
    QTest::keyClick(&open.list, Qt::Key_L);
    const app::RowPrints::Pair pair = open.traced().alikePairs().front();
    REQUIRE(other.isVisible());
    CHECK(other.row() == pair.other);
    // Its print is drawn as large as those above, and is no blank.
    QTest::qWait(0);
    const QImage shown = other.grab().toImage();
    CHECK(shown.pixelColor(16 + 40, 34 + 40) != shown.pixelColor(shown.width() - 2, 20));
    QTest::keyClick(&open.list, Qt::Key_N);
    CHECK_FALSE(other.isVisible());
}

TEST_CASE("the other of two that look alike is told in the singular where it is one cell") {
    OpenTraced open;
    chart::Chart split = open.chart();
    split.key.push_back(split.key[1]);
    split.key.back().symbol = QStringLiteral("D");
    split.key.back().pixel = {9, 9, 9};
    chart::setCells(split.grid, std::vector<Cell>{{6, 4}}, 3);
    chart::recount(split);
    open.document.changeChart(open.leaf, split, QStringLiteral("x"));
    app::OtherSymbol other(open.traced());
    other.setRow(chart::KeyIndex{3});
    CHECK(other.title() == QStringLiteral("D, Q-8 as printed: 1 cell"));
}

TEST_CASE("two symbols one below the other come to rest at any height of the window") {
    OpenSheet open;
    QTest::keyClick(&open.list, Qt::Key_L);
    struct Resizes : QObject {
        int count = 0;
        bool eventFilter(QObject* /*watched*/, QEvent* event) override {
            count += event->type() == QEvent::Resize ? 1 : 0;
            return false;
        }
    } resizes;
    open.list.viewport()->installEventFilter(&resizes);
    for (int height = 480; height <= 900; height += 12) {
        open.place->resize(1000, height);
        // A busy machine may need some turns to lay out; what never rests needs all of them.
        constexpr int kMostTries = 20;
        for (int tries = 0; tries == 0 || (resizes.count > 0 && tries < kMostTries); ++tries) {
            resizes.count = 0;
            for (int i = 0; i < 8; ++i) {
                QTest::qWait(0);
            }
        }
        INFO(height);
        CHECK(resizes.count == 0);
    }
}
