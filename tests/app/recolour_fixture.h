#pragma once

#include "app/recolour/alternatives_model.h"
#include "app/recolour/alternatives_wall.h"
#include "app/recolour/before_after_canvas.h"
#include "app/recolour/colourway_table.h"
#include "app/recolour/recolour_place.h"
#include "app/window_fixture.h"
#include "colour/conversion.h"

#include <QAbstractButton>
#include <QColor>
#include <QSignalSpy>

#include <algorithm>

namespace otherskein::tests {

/// Thirty-six threads round the hues in three lightnesses; every other one is owned.
[[nodiscard]] inline thread::ShadeCard roundCard() {
    thread::ShadeCard card{QStringLiteral("round"), {}, {}};
    for (int i = 0; i < 36; ++i) {
        const QColor colour = QColor::fromHsv(i * 10, 90 + 40 * (i % 3), 110 + 45 * (i % 3));
        thread::Thread thread = thread::threadOfSrgb(
            QStringLiteral("R-%1").arg(i + 1), QStringLiteral("Shade %1").arg(i + 1),
            {static_cast<std::uint8_t>(colour.red()), static_cast<std::uint8_t>(colour.green()),
             static_cast<std::uint8_t>(colour.blue())});
        thread.stash = i % 2 == 0 ? 1 : 0;
        card.threads.push_back(thread);
    }
    return card;
}

/// A row of `squares` squares, five stitches wide, three apart, each stitched in the key row that
/// `keyOf` gives it.
template <typename KeyOf>
[[nodiscard]] chart::Chart rowOfSquares(int squares, std::size_t keyRows, const KeyOf& keyOf) {
    chart::Chart chart;
    chart.name = QStringLiteral("Squares");
    chart.grid = chart::Grid(squares * 8, 9);
    for (std::size_t i = 0; i < keyRows; ++i) {
        const thread::Thread thread = roundCard().threads[i * 7];
        chart.key.push_back({*thread.entered, thread.lab, QString(QChar(u'A' + int(i))),
                             QStringLiteral("round"), thread.code, thread.name, 2, 0});
    }
    for (int square = 0; square < squares; ++square) {
        for (int cell = 0; cell < 25; ++cell) {
            chart.grid.set({square * 8 + 1 + cell % 5, 2 + cell / 5},
                           static_cast<chart::KeyIndex>(keyOf(square)));
        }
    }
    chart::recount(chart);
    return chart;
}

[[nodiscard]] inline chart::Chart squaresInOneColour() {
    return rowOfSquares(6, 1, [](int) { return 0; });
}
[[nodiscard]] inline chart::Chart squaresInFour() {
    chart::Chart chart = rowOfSquares(8, 4, [](int square) { return square % 4; });
    chart.name = QStringLiteral("Four");
    return chart;
}

/// The place Recolour alone in a window, on a workbox with one card; charts as given.
struct OpenRecolour {
    QTemporaryDir folder;
    std::unique_ptr<workbox::Document> document;
    std::unique_ptr<app::Session> session;
    std::unique_ptr<app::RecolourPlace> place;

    explicit OpenRecolour(const std::vector<chart::Chart>& charts) {
        openDocument();
        document->addCard(roundCard());
        for (const chart::Chart& chart : charts) {
            document->addChart(chart);
        }
        openPlace();
    }

    void openDocument() {
        document =
            std::make_unique<workbox::Document>(folder.filePath(QStringLiteral("workbox.sqlite")));
        session = std::make_unique<app::Session>(*document);
    }
    void openPlace() {
        place = std::make_unique<app::RecolourPlace>(*session);
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

    /// False when the wall did not fill in good time.
    [[nodiscard]] bool filled() const {
        QTest::qWait(5);
        return QTest::qWaitFor([this] { return !place->isBusy(); }, 60'000);
    }

    template <typename Widget>
    [[nodiscard]] Widget& the() const {
        auto* found = place->template findChild<Widget*>();
        REQUIRE(found != nullptr);
        return *found;
    }
    /// The control of that accessible name, or null.
    template <typename Widget>
    [[nodiscard]] Widget* control(const char* name) const {
        for (auto* one : place->template findChildren<Widget*>()) {
            if (one->accessibleName() == QLatin1String(name)) {
                return one;
            }
        }
        return nullptr;
    }
    void press(const char* text) const {
        CAPTURE(text);
        for (auto* one : place->template findChildren<QAbstractButton*>()) {
            if (one->text() == QString::fromUtf8(text) && one->isVisible()) {
                QTest::mouseClick(one, Qt::LeftButton);
                return;
            }
        }
        FAIL("no such button is shown");
    }

    [[nodiscard]] app::AlternativesModel& cards() const { return place->alternatives(); }
    void clickCard(int row) const {
        auto& wall = the<app::AlternativesWall>();
        REQUIRE(row < cards().rowCount());
        QTest::mouseClick(wall.viewport(), Qt::LeftButton, {},
                          wall.visualRect(cards().index(row)).center());
    }
    [[nodiscard]] std::vector<workbox::StoredColourway> kept() const {
        return document->colourways(*place->state().chart);
    }
    [[nodiscard]] std::vector<colourway::Choice> shown() const {
        REQUIRE(place->desk().shown().has_value());
        return place->desk().shown()->now;
    }
};

} // namespace otherskein::tests
