#include "app/ground/ground_place.h"

#include "app/ground/chart_on_ground.h"
#include "app/ground/ground_matrix.h"
#include "app/ground/grounds_dialog.h"
#include "app/ground/measures_dialog.h"
#include "app/ground/photo_view.h"
#include "app/ground/piece_form.h"
#include "app/ground/shopping_list.h"
#include "app/ground/ways_panel.h"
#include "app/recolour_fixture.h"
#include "base/input_error.h"
#include "colour/difference.h"
#include "colourway/saved_colourway.h"

#include <catch2/catch.hpp>

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHeaderView>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSlider>
#include <QSpinBox>

using namespace otherskein;

namespace {

/// The place Ground alone in a window: the round card, a chart of four colours whose third is
/// nearly the dark cloth, and three cloths.
struct OpenGround {
    QTemporaryDir folder;
    std::unique_ptr<workbox::Document> document;
    std::unique_ptr<app::Session> session;
    std::unique_ptr<app::GroundPlace> place;
    workbox::ChartId chart{};
    std::vector<workbox::GroundId> grounds;

    OpenGround() {
        openDocument();
        document->addCard(tests::roundCard());
        chart = document->addChart(tests::squaresInFour());
        const colour::Srgb8 lost = *tests::roundCard().threads[14].entered;
        for (const auto& [name, srgb] : {std::pair{QStringLiteral("Like it"), lost},
                                         {QStringLiteral("Chalk"), {250, 248, 240}},
                                         {QStringLiteral("Coal"), {24, 24, 28}}}) {
            grounds.push_back(document->addGround(thread::groundOfSrgb(name, srgb)));
        }
        session->chooseGround(grounds[0]);
        openPlace();
    }

    void openDocument() {
        document =
            std::make_unique<workbox::Document>(folder.filePath(QStringLiteral("workbox.sqlite")));
        session = std::make_unique<app::Session>(*document);
    }
    void openPlace() {
        place = std::make_unique<app::GroundPlace>(*session);
        place->resize(1194, 776);
        place->show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(place.get());
    }
    void reopen() {
        place.reset();
        session.reset();
        document.reset();
        openDocument();
        openPlace();
    }
    template <typename Widget>
    [[nodiscard]] Widget& named(const char* name) const {
        for (auto* one : place->findChildren<Widget*>()) {
            if (one->accessibleName() == QLatin1String(name)) {
                return *one;
            }
        }
        FAIL("no control is called " << name);
        std::abort();
    }
    [[nodiscard]] QPushButton* wayThatSays(const QString& text) const {
        for (auto* one : place->findChildren<QPushButton*>()) {
            if (one->isVisible() && one->accessibleName().startsWith(text)) {
                return one;
            }
        }
        return nullptr;
    }
    [[nodiscard]] app::GroundMatrix& matrix() const {
        return *place->findChild<app::GroundMatrix*>();
    }
    [[nodiscard]] app::GroundDesk& desk() const { return place->desk(); }
    [[nodiscard]] std::vector<QString> lostCodes() const {
        std::vector<QString> codes;
        for (const std::size_t part : desk().lost()) {
            codes.push_back(desk().now()[part].code());
        }
        return codes;
    }
};

} // namespace

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

TEST_CASE("a fabric is entered by its colour, typed over as one step, and shown at once") {
    const OpenGround open;
    app::GroundsDialog dialog(*open.session, open.place->state());
    dialog.show();
    auto* add = [&]() -> QPushButton* {
        for (auto* one : dialog.findChildren<QPushButton*>()) {
            if (one->text() == QStringLiteral("Add a fabric")) {
                return one;
            }
        }
        return nullptr;
    }();
    REQUIRE(add != nullptr);
    QTest::mouseClick(add, Qt::LeftButton);
    REQUIRE(open.document->grounds().size() == 4);
    QLineEdit* name = nullptr;
    QLineEdit* hex = nullptr;
    for (auto* one : dialog.form().findChildren<QLineEdit*>()) {
        name = one->accessibleName() == QStringLiteral("Name of the fabric") ? one : name;
        hex = one->accessibleName() == QStringLiteral("Colour as #rrggbb") ? one : hex;
    }
    REQUIRE((name != nullptr && hex != nullptr));
    const int steps = open.document->undoStack().count();
    name->selectAll();
    QTest::keyClicks(name, QStringLiteral("Fog linen"));
    hex->selectAll();
    QTest::keyClicks(hex, QStringLiteral("#aab0b4"));
    const thread::Ground& made = open.document->grounds()[3].ground;
    CHECK(made.name == QStringLiteral("Fog linen"));
    CHECK((made.shown == colour::Srgb8{0xaa, 0xb0, 0xb4}));
    CHECK(open.document->undoStack().count() == steps + 2);
    hex->selectAll();
    QTest::keyClicks(hex, QStringLiteral("grey"));
    QTest::keyClick(hex, Qt::Key_Return);
    CHECK(hex->text() == QStringLiteral("#aab0b4"));
    CHECK(open.matrix().model()->columnCount() == 4);
    open.document->undoStack().undo();
    open.document->undoStack().undo();
    CHECK(open.document->grounds()[3].ground.name == QStringLiteral("New fabric"));
}

TEST_CASE("a fabric's colour is taken from a photo, which is kept") {
    const OpenGround open;
    QImage photo(200, 100, QImage::Format_RGB32);
    photo.fill(QColor(60, 70, 90));
    for (int y = 0; y < 100; ++y) {
        for (int x = 100; x < 200; ++x) {
            // A weave of two shades; the eye sees their mean in light.
            photo.setPixelColor(x, y,
                                (x + y) % 2 == 0 ? QColor(200, 180, 150) : QColor(120, 100, 70));
        }
    }
    const QString path = open.folder.filePath(QStringLiteral("cloth.png"));
    REQUIRE(photo.save(path));
    app::PieceForm form;
    form.show(open.document->grounds()[1].ground, true);
    form.resize(500, 500);
    form.show();
    form.openPhoto(path);
    CHECK_FALSE(form.ground().photo.isEmpty());
    auto* view = form.findChild<app::PhotoView*>();
    REQUIRE(view != nullptr);
    QTest::mouseClick(view, Qt::LeftButton, {}, QPoint(20, 20));
    CHECK((form.ground().shown == colour::Srgb8{60, 70, 90}));
    const colour::Lab mean = app::meanColour(photo, QRect(120, 20, 40, 40));
    const colour::Lab light = colour::labFromSrgb({200, 180, 150});
    const colour::Lab dark = colour::labFromSrgb({120, 100, 70});
    const double Y = (colour::xyzFromLab(light).Y + colour::xyzFromLab(dark).Y) / 2;
    CHECK(std::abs(colour::xyzFromLab(mean).Y - Y) < 1e-3);
    thread::Ground kept = form.ground();
    open.document->changeGround(open.grounds[1], kept);
    CHECK(open.document->grounds()[1].ground.photo == kept.photo);
    CHECK_THROWS_AS(form.openPhoto(open.folder.filePath(QStringLiteral("none.png"))),
                    base::InputError);
}

TEST_CASE("own measures of thread change what is covered and are kept") {
    OpenGround open;
    app::MeasuresDialog dialog(*open.session, open.desk().chosenGround());
    QDoubleSpinBox* width = nullptr;
    QDoubleSpinBox* sample = nullptr;
    QDoubleSpinBox* waste = nullptr;
    QSpinBox* stitches = nullptr;
    for (auto* one : dialog.findChildren<QDoubleSpinBox*>()) {
        width = one->accessibleName() == QStringLiteral("Width of one strand") ? one : width;
        sample = one->accessibleName() == QStringLiteral("Width of all of them") ? one : sample;
        waste = one->accessibleName() == QStringLiteral("Share for tails and ways") ? one : waste;
    }
    for (auto* one : dialog.findChildren<QSpinBox*>()) {
        stitches =
            one->accessibleName() == QStringLiteral("Stitches out of one skein") ? one : stitches;
    }
    REQUIRE((width && sample && waste && stitches));
    const auto press = [&](const char* name) {
        for (auto* one : dialog.findChildren<QPushButton*>()) {
            if (one->accessibleName() == QLatin1String(name)) {
                one->click();
            }
        }
    };
    const double before = open.session->waste();
    sample->setValue(5.0); // ten strands
    press("Take the width from the sample");
    CHECK(std::abs(width->value() - 0.5) < 1e-9);
    CHECK(open.session->plyWidths().measuredMm.at(QStringLiteral("cotton")) == 0.5);
    stitches->setValue(2400);
    press("Take the share from the skein");
    CHECK(open.session->waste() != before);
    const double taken = open.session->waste();
    open.reopen();
    CHECK(open.session->plyWidths().measuredMm.at(QStringLiteral("cotton")) == 0.5);
    CHECK(std::abs(open.session->waste() - taken) < 1e-6);
}

TEST_CASE("the shopping list says what is to be bought") {
    const OpenGround open;
    std::vector<const thread::ShadeCard*> cards;
    for (const thread::ShadeCard& card : *open.session->cards()) {
        cards.push_back(&card);
    }
    const auto quantities = colourway::quantitiesOf(*open.desk().subject(), open.desk().now(),
                                                    open.desk().stitched(), {}, cards);
    const app::ShoppingList list(QStringLiteral("Four"), quantities, {});
    // are owned, the two others are not.
    CHECK(quantities.toBuy == 2);
    CHECK(list.text().contains(QStringLiteral("R-8 Shade 8: 0.")));
    CHECK(list.text().endsWith(QStringLiteral("To buy: 2")));
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
