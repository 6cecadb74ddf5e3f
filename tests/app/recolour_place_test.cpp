#include "app/recolour/recolour_place.h"

#include "app/recolour_fixture.h"

#include <catch2/catch.hpp>

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QSlider>
#include <QSpinBox>

#include <cmath>

using namespace otherskein;
using tests::OpenRecolour;

TEST_CASE("a chart in one colour opens on a wall of alternatives that nobody asked for") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    CHECK(open.place->state().job == app::RecolourJob::Motifs);
    CHECK(open.cards().rowCount() >= 6);
    CHECK(open.shown().size() == 6);
    CHECK_FALSE(open.place->desk().isKept());
    CHECK(open.kept().empty());
    for (int row = 0; row < open.cards().rowCount(); ++row) {
        CAPTURE(row);
        CHECK_FALSE(open.cards().alternative(row).picture.isNull());
        CHECK(open.cards().alternative(row).strip.size() >= 2);
    }
}

TEST_CASE("a chart in several colours opens on another colour family") {
    const OpenRecolour open({tests::squaresInFour()});
    REQUIRE(open.filled());
    CHECK(open.place->state().job == app::RecolourJob::Family);
    CHECK(open.cards().rowCount() >= 6);
    CHECK(open.shown().size() == 4);
}

TEST_CASE("all cards of the wall are seen at once in a usual window") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    const auto& wall = open.the<app::AlternativesWall>();
    for (int row = 0; row < open.cards().rowCount(); ++row) {
        CAPTURE(row);
        CHECK(wall.viewport()->rect().contains(wall.visualRect(open.cards().index(row))));
    }
}

TEST_CASE("the line between before and after is dragged and moved by keys") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    auto& canvas = open.the<app::BeforeAfterCanvas>();
    const auto y = canvas.height() / 2;
    const auto x = static_cast<int>(canvas.dividerX());
    QTest::mousePress(&canvas, Qt::LeftButton, {}, QPoint(x + 12, y)); // on the handle's rim
    QTest::mouseMove(&canvas, QPoint(x + 112, y));
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, QPoint(x + 112, y));
    CHECK(std::abs(canvas.dividerX() - (x + 100)) <= 1);
    CHECK(open.place->state().divider == canvas.divider());

    canvas.setFocus();
    const double before = canvas.divider();
    QTest::keyClick(&canvas, Qt::Key_Left, Qt::ShiftModifier);
    CHECK(canvas.divider() < before);
    QTest::keyClick(&canvas, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(std::abs(canvas.divider() - before) < 1e-9);
}

TEST_CASE("a click on a motif chooses its row") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    auto& canvas = open.the<app::BeforeAfterCanvas>();
    const drawing::View& view = canvas.view();
    const QPointF fourth = drawing::fromCells(view, {3 * 8 + 3.5, 4.5});
    QTest::mouseClick(&canvas, Qt::LeftButton, {}, fourth.toPoint() + QPoint(1, 1));
    const app::ColourwayRow* row = open.the<app::ColourwayTable>().chosen();
    REQUIRE(row != nullptr);
    CHECK(row->parts == std::vector<std::size_t>{3});
}

TEST_CASE("another source of colours asks anew") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.press("One hue");
    REQUIRE(open.filled());
    const auto first = open.cards().alternative(0).colourway.now;
    CHECK(std::holds_alternative<colourway::HueFamily>(open.place->desk().question().theme));

    auto* hues = open.control<QWidget>("Hue");
    REQUIRE(hues != nullptr);
    hues->setFocus();
    for (int i = 0; i < 12; ++i) {
        QTest::keyClick(hues, Qt::Key_Right);
    }
    REQUIRE(open.filled());
    CHECK_FALSE(app::isSameChoice(first, open.cards().alternative(0).colourway.now));
}

TEST_CASE("my threads are only those that are owned") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    CHECK(open.place->state().source == app::ColourSource::MyThreads); // there are enough of them
    for (int row = 0; row < open.cards().rowCount(); ++row) {
        CHECK(open.cards().alternative(row).colourway.figures.threadsToBuy == 0);
    }
}

TEST_CASE("new ideas bring a wall of others") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    const auto first = open.cards().alternative(0).colourway.now;
    open.press("New ideas");
    REQUIRE(open.filled());
    CHECK_FALSE(app::isSameChoice(first, open.cards().alternative(0).colourway.now));
    const auto second = open.cards().alternative(0).colourway.now;
    QTest::keyClick(&open.the<app::AlternativesWall>(), Qt::Key_Space);
    REQUIRE(open.filled());
    CHECK_FALSE(app::isSameChoice(second, open.cards().alternative(0).colourway.now));
}

TEST_CASE("more like it keeps the liked card first") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.clickCard(2);
    const auto liked = open.cards().alternative(2).colourway.now;
    open.press("More like it");
    REQUIRE(open.filled());
    CHECK(app::isSameChoice(liked, open.cards().alternative(0).colourway.now));
    CHECK(open.cards().rowCount() >= 3);
}

TEST_CASE("escape stops the search and leaves what is found") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    open.place->newIdeas();
    REQUIRE(QTest::qWaitFor([&] { return open.cards().isStale(); }, 60'000));
    REQUIRE(QTest::qWaitFor([&] { return !open.cards().isStale(); }, 60'000));
    QTest::keyClick(&open.the<app::AlternativesWall>(), Qt::Key_Escape);
    CHECK_FALSE(open.place->isBusy());
    CHECK(open.cards().rowCount() >= 1);
    const int found = open.cards().rowCount();
    QTest::qWait(50);
    CHECK(open.cards().rowCount() == found);
}

TEST_CASE("the motif slider cuts finer in one step of the history") {
    chart::Chart chart = tests::squaresInOneColour();
    // A bridge one stitch wide joins the first two squares: finer cutting parts them.
    for (int column = 6; column < 9; ++column) {
        chart.grid.set({column, 4}, 0);
    }
    chart::recount(chart);
    const OpenRecolour open({chart});
    REQUIRE(open.filled());
    const std::size_t before = open.shown().size();
    auto* slider = open.control<QSlider>("Motifs, from few to many");
    REQUIRE(slider != nullptr);
    const int steps = open.document->undoStack().count();
    slider->setFocus();
    for (int i = 0; i < chart::kMotifSteps; ++i) {
        QTest::keyClick(slider, Qt::Key_Right);
    }
    REQUIRE(open.filled());
    CHECK(open.shown().size() > before);
    CHECK(open.document->undoStack().count() == steps + 1);
    open.document->undoStack().undo();
    REQUIRE(open.filled());
    CHECK(open.shown().size() == before);
}

TEST_CASE("without a chart the place says how to begin") {
    const OpenRecolour open({});
    CHECK(open.place->desk().subject() == nullptr);
    QSignalSpy demo(open.place.get(), &app::RecolourPlace::demoAsked);
    QSignalSpy charts(open.place.get(), &app::RecolourPlace::chartsAsked);
    open.press("Open the demo");
    open.press("Go to Charts");
    CHECK(demo.size() == 1);
    CHECK(charts.size() == 1);
    open.document->addChart(tests::squaresInOneColour());
    REQUIRE(open.filled());
    CHECK(open.cards().rowCount() >= 6);
}

TEST_CASE("without threads the wall says why it is empty, and fills once there are some") {
    OpenRecolour open({tests::squaresInOneColour()});
    open.document->removeCard(open.document->cards().front().id);
    REQUIRE(open.filled());
    CHECK(open.cards().rowCount() == 0);
    CHECK(open.the<app::AlternativesWall>().emptyText().contains(QStringLiteral("no threads")));
    open.document->undoStack().undo();
    REQUIRE(open.filled());
    CHECK(open.cards().rowCount() >= 6);
    CHECK(open.the<app::AlternativesWall>().emptyText().isEmpty());
}

TEST_CASE("colours come from a picture, and what is no picture is refused") {
    const OpenRecolour open({tests::squaresInOneColour()});
    REQUIRE(open.filled());
    QImage picture(40, 20, QImage::Format_RGB32);
    picture.fill(QColor(200, 40, 40));
    for (int x = 0; x < 20; ++x) {
        for (int y = 0; y < 20; ++y) {
            picture.setPixelColor(x, y, QColor(30, 90, 160));
        }
    }
    const QString path = open.folder.filePath(QStringLiteral("sea.png"));
    REQUIRE(picture.save(path));
    open.place->openPicture(path);
    REQUIRE(open.filled());
    CHECK(open.place->state().pictureColours.size() == 2);
    CHECK(open.place->state().source == app::ColourSource::Picture);
    CHECK(open.cards().rowCount() >= 1);

    const app::RecolourState before = open.place->state();
    QSignalSpy refused(open.place.get(), &app::RecolourPlace::refused);
    open.place->openPicture(open.folder.filePath(QStringLiteral("workbox.sqlite")));
    REQUIRE(refused.size() == 1);
    CHECK(refused.front().front().toString().contains(QStringLiteral("expected a picture")));
    CHECK(open.place->state() == before);
}

TEST_CASE("every control of recolour has a name for screen readers") {
    const OpenRecolour open({tests::squaresInFour()});
    REQUIRE(open.filled());
    app::RecolourState state = open.place->state();
    state.more = true;
    open.place->ask(state);
    int seen = 0;
    for (QWidget* one : open.place->findChildren<QWidget*>()) {
        const bool inside = qobject_cast<QAbstractSpinBox*>(one->parentWidget()) != nullptr ||
                            qobject_cast<QComboBox*>(one->parentWidget()) != nullptr;
        const bool ofCombo = QString::fromLatin1(one->metaObject()->className())
                                 .startsWith(QStringLiteral("QCombo")) &&
                             qobject_cast<QComboBox*>(one) == nullptr; // the list that Qt pops up
        if (one->focusPolicy() == Qt::NoFocus || inside || ofCombo || one->isHidden() ||
            one->focusProxy()) {
            continue;
        }
        const auto* button = qobject_cast<QAbstractButton*>(one);
        CAPTURE(one->metaObject()->className());
        CHECK(
            !(one->accessibleName().isEmpty() && (button == nullptr || button->text().isEmpty())));
        ++seen;
    }
    CHECK(seen > 12);
}
