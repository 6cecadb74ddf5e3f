#include "app/frame/main_window.h"

#include "app/frame/look.h"
#include "app/frame/message_bar.h"
#include "app/window_fixture.h"
#include "colour/contrast.h"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QDropEvent>
#include <QFile>
#include <QLineEdit>
#include <QMimeData>

using namespace otherskein;
using tests::OpenWindow;

namespace {

double ratio(const QColor& one, const QColor& other) {
    const auto srgb = [](const QColor& colour) {
        return colour::Srgb8{static_cast<std::uint8_t>(colour.red()),
                             static_cast<std::uint8_t>(colour.green()),
                             static_cast<std::uint8_t>(colour.blue())};
    };
    return colour::contrastRatio(srgb(one), srgb(other));
}

} // namespace

TEST_CASE("the number keys with control go to the five places") {
    OpenWindow open;
    const std::pair<Qt::Key, app::PlaceId> keys[] = {{Qt::Key_2, app::PlaceId::Charts},
                                                     {Qt::Key_3, app::PlaceId::Substitute},
                                                     {Qt::Key_4, app::PlaceId::Recolour},
                                                     {Qt::Key_5, app::PlaceId::Ground},
                                                     {Qt::Key_1, app::PlaceId::Threads}};
    for (const auto& [key, place] : keys) {
        QTest::keyClick(open.window.get(), key, Qt::ControlModifier);
        CAPTURE(int(key));
        CHECK(open.window->place() == place);
    }
}

TEST_CASE("every control that takes the keyboard has an accessible name") {
    OpenWindow open;
    open.window->openDemo();
    for (auto* widget : open.window->findChildren<QWidget*>()) {
        const bool control = qobject_cast<QAbstractButton*>(widget) != nullptr ||
                             qobject_cast<QComboBox*>(widget) != nullptr ||
                             qobject_cast<QAbstractSpinBox*>(widget) != nullptr ||
                             qobject_cast<QLineEdit*>(widget) != nullptr;
        if (!control || widget->focusPolicy() == Qt::NoFocus ||
            qobject_cast<QAbstractSpinBox*>(widget->parentWidget()) != nullptr ||
            qobject_cast<QComboBox*>(widget->parentWidget()) != nullptr) {
            continue;
        }
        const auto* button = qobject_cast<QAbstractButton*>(widget);
        CAPTURE(widget->metaObject()->className(), widget->objectName().toStdString());
        CHECK_FALSE((widget->accessibleName().isEmpty() &&
                     (button == nullptr || button->text().isEmpty())));
    }
}

TEST_CASE("dropped files are imported and a bad one is told in one line") {
    OpenWindow open;
    const QString good = open.folder.filePath(QStringLiteral("good.csv"));
    const QString bad = open.folder.filePath(QStringLiteral("bad.csv"));
    for (const auto& [path, text] : {std::pair(good, "code,name,srgb\nA-1,Ash,#aabbcc\n"),
                                     std::pair(bad, "code,name,srgb\nB-1,Birch,#12345\n")}) {
        QFile file(path);
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(text);
    }
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(good), QUrl::fromLocalFile(bad)});
    QDragEnterEvent enter(QPoint(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(open.window.get(), &enter);
    REQUIRE(enter.isAccepted());
    QDropEvent drop(QPointF(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(open.window.get(), &drop);
    REQUIRE(open.document->cards().size() == 1);
    CHECK(open.document->cards().front().name == QStringLiteral("good"));
    CHECK(open.window->messages().text().contains(QStringLiteral("bad.csv")));
}

TEST_CASE("a message goes when the next step makes it stale and undo says what it undid") {
    OpenWindow open;
    open.window->openDemo();
    CHECK_FALSE(open.window->messages().text().isEmpty());
    open.document->addGround(thread::groundOfSrgb(QStringLiteral("Sand"), {0xd0, 0xc0, 0xa0}));
    CHECK(open.window->messages().text().isEmpty());
    QTest::keyClick(open.window.get(), Qt::Key_Z, Qt::ControlModifier);
    CHECK(open.window->messages().text().startsWith(QStringLiteral("Undone: ")));
}

TEST_CASE("one of a thing reads as one") {
    CHECK(app::SubstitutePlace::tr("%n substitutes", nullptr, 1) == QStringLiteral("1 substitute"));
    CHECK(app::SubstitutePlace::tr("%n substitutes", nullptr, 20) ==
          QStringLiteral("20 substitutes"));
}

TEST_CASE("the greys reach the contrast that WCAG AA asks for") {
    for (const app::Tone tone : {app::Tone::Light, app::Tone::Dark}) {
        app::applyLook(*qobject_cast<QApplication*>(QCoreApplication::instance()), tone);
        const app::Greys& g = app::greys();
        for (const QColor& ground : {g.chrome, g.surround, g.field, g.chosen}) {
            CAPTURE(ground.name().toStdString());
            CHECK(ratio(g.text, ground) >= 4.5);
            CHECK(ratio(g.quiet, ground) >= 4.5);
        }
        CHECK(ratio(g.onStrong, g.strong) >= 4.5);
        CHECK(ratio(g.edge, g.chrome) >= 3); // WCAG 1.4.11, outlines of controls
        for (const QColor& grey :
             {g.chrome, g.surround, g.field, g.text, g.quiet, g.line, g.edge}) {
            CHECK(grey.hsvSaturation() == 0); // neutral, as ISO 3664 asks of a surround
        }
    }
    app::applyLook(*qobject_cast<QApplication*>(QCoreApplication::instance()), app::Tone::Light);
}

TEST_CASE("the window lays itself out from right to left") {
    QApplication::setLayoutDirection(Qt::RightToLeft);
    {
        OpenWindow open;
        open.window->openDemo();
        REQUIRE(open.answered());
        const auto* rail = open.window->findChild<app::Rail*>();
        REQUIRE(rail != nullptr);
        CHECK(rail->mapTo(open.window.get(), QPoint(0, 0)).x() > open.window->width() / 2);
        CHECK_FALSE(open.window->grab().isNull());
    }
    QApplication::setLayoutDirection(Qt::LeftToRight);
}
