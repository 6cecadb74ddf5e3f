#include "app/ground/grounds_dialog.h"
#include "app/ground/measures_dialog.h"
#include "app/ground/photo_view.h"
#include "app/ground/piece_form.h"
#include "app/ground/shopping_list.h"

#include "app/ground_fixture.h"
#include "base/input_error.h"
#include "colour/conversion.h"

#include <catch2/catch.hpp>

#include <QDoubleSpinBox>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>

#include <cmath>

using namespace otherskein;
using tests::OpenGround;

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
