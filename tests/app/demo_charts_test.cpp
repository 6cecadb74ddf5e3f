// From an empty workbox to a recoloured chart, as a newcomer goes.
#include "app/window_fixture.h"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QDropEvent>
#include <QMimeData>
#include <QPushButton>

using namespace otherskein;
using tests::OpenWindow;

TEST_CASE("one click opens the demo on a wall of colourways, and undo takes it all away") {
    OpenWindow open;
    auto* demo = open.button<QPushButton>(QStringLiteral("Open the demo"));
    REQUIRE(demo != nullptr);
    QTest::mouseClick(demo, Qt::LeftButton);
    CHECK(open.window->place() == app::PlaceId::Recolour);
    REQUIRE(open.document->charts().size() == 2);
    CHECK(open.window->session().chartId() == open.document->charts().front().id);
    CHECK(open.document->charts().front().name == QStringLiteral("Boathouses"));
    REQUIRE(QTest::qWaitFor([&] { return !open.recolour().isBusy(); }, 60'000));
    QTest::keyClick(open.window.get(), Qt::Key_Z, Qt::ControlModifier);
    CHECK(open.document->charts().empty());
    CHECK(open.document->cards().empty());
}

TEST_CASE("a dropped picture becomes a chart and opens Charts") {
    OpenWindow open;
    open.document->addGround(thread::groundOfSrgb(QStringLiteral("Sand"), {0xd0, 0xc0, 0xa0}));
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(
        QStringLiteral(OTHERSKEIN_SOURCE_DIR "/palettes/harbour-row/harbour-evening.png"))});
    QDragEnterEvent enter(QPoint(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(open.window.get(), &enter);
    REQUIRE(enter.isAccepted());
    QDropEvent drop(QPointF(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(open.window.get(), &drop);
    CHECK(open.window->place() == app::PlaceId::Charts);
    REQUIRE(open.document->charts().size() == 1);
    CHECK(open.document->charts().front().keyRows == 26);
}
