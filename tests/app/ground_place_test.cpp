#include "app/ground/ground_place.h"

#include "app/ground/chart_on_ground.h"
#include "app/ground/ground_matrix.h"
#include "app/ground/ways_panel.h"
#include "app/ground_fixture.h"
#include "colour/difference.h"
#include "colourway/saved_colourway.h"

#include <catch2/catch.hpp>

#include <QCheckBox>
#include <QComboBox>
#include <QHeaderView>
#include <QListWidget>
#include <QPushButton>
#include <QSlider>

using namespace otherskein;
using tests::OpenGround;

TEST_CASE("the chart's threads stand against every ground, the least contrast first") {
    const OpenGround open;
    CHECK(open.matrix().model()->rowCount() == 4);
    CHECK(open.matrix().model()->columnCount() == 3);
    double before = 0;
    for (const app::GroundRow& row : open.desk().rows()) {
        CHECK(row.on[0].de00 >= before);
        before = row.on[0].de00;
    }
    CHECK(open.lostCodes() == std::vector{QStringLiteral("R-15")});
    const QString said = open.matrix().model()->index(0, 0).data(Qt::AccessibleTextRole).toString();
    CHECK(said.contains(QStringLiteral("R-15")));
    CHECK(said.contains(QStringLiteral("vanishes")));
    CHECK(said.endsWith(QStringLiteral("2 strands cover 96 %. 95 % takes 2.")));
}

TEST_CASE("a click on a ground's head stitches on it, and order can be the key's") {
    const OpenGround open;
    auto* head = open.matrix().horizontalHeader();
    QTest::mouseClick(head->viewport(), Qt::LeftButton, {},
                      QPoint(head->sectionViewportPosition(1) + 20, 12));
    CHECK(open.session->groundId() == open.grounds[1]);
    CHECK(open.lostCodes().empty());
    auto& order = open.named<QComboBox>("Order");
    order.setCurrentIndex(1);
    Q_EMIT order.activated(1);
    CHECK(open.desk().rows()[0].choice.code() == QStringLiteral("R-1"));
    CHECK(open.desk().rows()[1].choice.code() == QStringLiteral("R-8"));
}

TEST_CASE("the thread offered is taken with a click, kept, and taken back by undo") {
    const OpenGround open;
    QPushButton* way = open.wayThatSays(QStringLiteral("Take R-"));
    REQUIRE(way != nullptr);
    QTest::mouseClick(way, Qt::LeftButton);
    QCoreApplication::processEvents();
    CHECK(open.lostCodes().empty());
    const auto kept = open.document->colourways(open.chart);
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].name == QStringLiteral("On Like it"));
    CHECK(open.desk().isRecoloured());
    // Every other part keeps its thread.
    CHECK(open.desk().now()[0].code() == QStringLiteral("R-1"));
    CHECK(open.desk().now()[1].code() == QStringLiteral("R-8"));
    CHECK(open.desk().now()[3].code() == QStringLiteral("R-22"));
    open.document->undoStack().undo();
    CHECK(open.document->colourways(open.chart).empty());
    CHECK(open.lostCodes() == std::vector{QStringLiteral("R-15")});
}

TEST_CASE(
    "a colourway by motifs is judged by its threads, and only motifs in the lost one change") {
    const OpenGround open;
    const auto squares = open.document->addChart(tests::squaresInOneColour());
    open.session->chooseChart(squares);
    const auto& cards = *open.session->cards();
    const std::vector<const thread::ShadeCard*> known{&cards[0]};
    const auto subject =
        colourway::subjectOf(tests::squaresInOneColour(), colourway::By::Motif, {}, known);
    REQUIRE(subject->parts.parts.size() == 6);
    colourway::Colourway mixed;
    mixed.by = colourway::By::Motif;
    for (std::size_t i = 0; i < 6; ++i) {
        // R-15 is the colour of the cloth.
        mixed.now.push_back(app::choiceOf(cards[0].name, cards[0].threads[i % 2 == 0 ? 14 : 4], 2));
    }
    colourway::RecolourQuestion question;
    question.by = colourway::By::Motif;
    const auto id =
        open.document->addColourway(squares, QStringLiteral("Mixed"),
                                    colourway::toJson(colourway::saved(*subject, question, mixed)));
    app::GroundState state = open.place->state();
    state.of = app::ThreadsOf::Chart;
    state.colourway = id;
    open.place->ask(state);
    CHECK(open.desk().rows().size() == 2);
    REQUIRE(open.lostCodes() == std::vector{QStringLiteral("R-15")});
    open.desk().pushAll();
    CHECK(open.lostCodes().empty());
    REQUIRE(open.document->colourways(squares).size() == 1);
    const auto after = colourway::restored(
        colourway::fromJson(open.document->colourways(squares)[0].content, QStringLiteral("x")),
        *subject, known);
    for (std::size_t i = 0; i < 6; ++i) {
        CAPTURE(i);
        CHECK((after.colourway.now[i].code() == QStringLiteral("R-5")) == (i % 2 == 1));
        CHECK(after.colourway.now[i].code() != QStringLiteral("R-15"));
    }
}

TEST_CASE("another ground is taken with a click") {
    const OpenGround open;
    QPushButton* way = open.wayThatSays(QStringLiteral("Stitch on "));
    REQUIRE(way != nullptr);
    const QString where = way->accessibleName().mid(10).section(QLatin1Char(','), 0, 0);
    QTest::mouseClick(way, Qt::LeftButton);
    QCoreApplication::processEvents();
    CHECK(open.session->ground().name == where);
    CHECK(open.lostCodes().empty());
}

TEST_CASE("more strands change the key and are undone") {
    const OpenGround open;
    open.desk().moreStrands(2, 3);
    CHECK(open.document->chart(open.chart)->key[2].strands == 3);
    CHECK(open.desk().rows()[0].strands == 3);
    open.document->undoStack().undo();
    CHECK(open.document->chart(open.chart)->key[2].strands == 2);
}

TEST_CASE("sliders for strands and count answer at once and are remembered") {
    OpenGround open;
    auto& strands = open.named<QSlider>("Strands");
    const double two = open.desk().rows()[0].on[1].coverage;
    strands.setFocus();
    strands.setValue(1);
    CHECK(open.desk().rows()[0].on[1].coverage < two);
    CHECK_FALSE(open.named<QCheckBox>("").isHidden());
    auto& count = open.named<QSlider>("Count");
    count.setValue(14);
    for (const app::GroundColumn& column : open.desk().columns()) {
        CHECK(column.ground.count == 14);
        CHECK(column.ground.over == 2);
    }
    // The workbox keeps each fabric's own.
    CHECK(open.document->grounds()[0].ground.count == 36);
    open.reopen();
    CHECK(open.place->state().strands == 1);
    CHECK(open.place->state().count == 14);
}

TEST_CASE("stash and cards are judged too") {
    const OpenGround open;
    auto& of = open.named<QComboBox>("Threads of");
    const auto choose = [&](const QString& text) {
        const int index = of.findText(text);
        REQUIRE(index >= 0);
        of.setCurrentIndex(index);
        Q_EMIT of.activated(index);
    };
    choose(QStringLiteral("My stash"));
    CHECK(open.desk().rows().size() == 18);
    CHECK(open.desk().subject() == nullptr);
    choose(QStringLiteral("round"));
    CHECK(open.desk().rows().size() == 36);
    choose(QStringLiteral("Four (chart)"));
    CHECK(open.desk().rows().size() == 4);
}

TEST_CASE("values and colour vision list the touching parts that merge") {
    const OpenGround open;
    app::GroundState state = open.place->state();
    state.page = app::GroundPage::Chart;
    state.sight.kind = colour::Sight::Kind::Values;
    open.place->ask(state);
    auto& list = open.named<QListWidget>("Touching parts that merge");
    CHECK(list.isVisible());
    const auto& contrasts = open.desk().contrasts();
    int expected = 0;
    for (const chart::Neighbours& pair : open.desk().subject()->parts.neighbours) {
        const colour::Lab& one = contrasts[pair.one].apparent;
        const colour::Lab& other = contrasts[pair.other].apparent;
        expected += colour::deltaE00(one, other) >= 9 && std::abs(one.L - other.L) < 6 ? 1 : 0;
    }
    CHECK(list.count() == expected);
    state.sight.kind = colour::Sight::Kind::Full;
    open.place->ask(state);
    CHECK_FALSE(list.isVisible());
}

TEST_CASE("what the place remembers survives a damaged text") {
    app::GroundState state;
    state.of = app::ThreadsOf::Card;
    state.card = QStringLiteral("round");
    state.strands = 3;
    state.count = 28;
    state.over = 1;
    state.hidden = {workbox::GroundId{4}};
    state.sight = {colour::Sight::Kind::Tritan, 0.4};
    state.inches = false;
    CHECK(app::rememberedGround(app::rememberedText(state)) == state);
    CHECK(app::rememberedGround(QStringLiteral("{\"strands\":")) == app::GroundState{});
    CHECK(
        app::rememberedGround(QStringLiteral("{\"strands\":900,\"of\":77,\"sight\":-3}")).strands ==
        6);
}
