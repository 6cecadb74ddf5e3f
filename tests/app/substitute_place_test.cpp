#include "app/substitute/substitute_place.h"

#include "app/frame/message_bar.h"
#include "app/substitute/wanted_chip.h"
#include "app/window_fixture.h"
#include "colour/conversion.h"
#include "colourway/wanted_search.h"

#include <catch2/catch.hpp>

#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QGuiApplication>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QSpinBox>

#include <algorithm>
#include <random>

using namespace otherskein;
using tests::OpenWindow;

namespace {

QLineEdit& wantedField(const OpenWindow& open) {
    auto* field = open.control<QLineEdit>(QStringLiteral("Wanted thread: code, name or #hex"));
    REQUIRE(field != nullptr);
    return *field;
}

void type(OpenWindow& open, const QString& text) {
    QLineEdit& field = wantedField(open);
    field.setFocus();
    field.selectAll();
    QTest::keyClicks(&field, text);
    REQUIRE(open.answered());
}

void press(OpenWindow& open, const QString& text) {
    auto* button = open.button<QPushButton>(text);
    CAPTURE(text.toStdString());
    REQUIRE(button != nullptr);
    QTest::mouseClick(button, Qt::LeftButton);
}

void openDemo(OpenWindow& open) {
    press(open, QStringLiteral("Open the demo"));
    open.window->show(app::PlaceId::Substitute);
    REQUIRE(open.answered());
}

QString firstCode(const OpenWindow& open) {
    REQUIRE_FALSE(open.substitute().answer().candidates.empty());
    return open.substitute().answer().candidates.front().code();
}

} // namespace

TEST_CASE("one click on an empty workbox opens the demo, and Substitute has an answer") {
    OpenWindow open;
    openDemo(open);
    CHECK(open.document->charts().size() == 2);
    CHECK(open.document->cards().size() == 3);
    CHECK(open.document->grounds().size() == 4);
    CHECK(open.substitute().state().question.wanted.code == QStringLiteral("LF-218"));
    CHECK(open.substitute().state().question.key.size() >= 9);
    CHECK(firstCode(open) == QStringLiteral("LF-224 + LF-235"));
}

TEST_CASE("the demo is one step that undo takes away") {
    OpenWindow open;
    openDemo(open);
    QTest::keyClick(open.window.get(), Qt::Key_Z, Qt::ControlModifier);
    CHECK(open.document->cards().empty());
    CHECK(open.document->grounds().empty());
    REQUIRE(open.answered());
    CHECK(open.button<QPushButton>(QStringLiteral("Open the demo"))->isVisible());
}

TEST_CASE("candidates appear while a code is typed and no button is pressed") {
    OpenWindow open;
    openDemo(open);
    type(open, QStringLiteral("LF-590"));
    CHECK(open.substitute().answer().state.question.wanted.code == QStringLiteral("LF-590"));
    for (const auto& candidate : open.substitute().answer().candidates) {
        CHECK_FALSE(
            candidate.code().split(QStringLiteral(" + ")).contains(QStringLiteral("LF-590")));
    }
}

TEST_CASE("a name and a colour can be typed as well as a code") {
    OpenWindow open;
    openDemo(open);
    type(open, QStringLiteral("harbour sl"));
    CHECK(open.substitute().state().question.wanted.code == QStringLiteral("LF-218"));
    type(open, QStringLiteral("#b03030"));
    CHECK(open.substitute().state().question.wanted.code.isEmpty());
    CHECK(open.substitute().state().question.wanted.lab ==
          colour::labFromSrgb(colour::Srgb8{0xb0, 0x30, 0x30}));
}

TEST_CASE("escape goes back to the thread that was in force before typing") {
    OpenWindow open;
    openDemo(open);
    type(open, QStringLiteral("no such thread"));
    QTest::keyClick(&wantedField(open), Qt::Key_Escape);
    CHECK(open.substitute().state().question.wanted.code == QStringLiteral("LF-218"));
    CHECK(wantedField(open).text().startsWith(QStringLiteral("LF-218")));
}

TEST_CASE("a press on a chip of the key makes it the wanted thread") {
    OpenWindow open;
    openDemo(open);
    auto* strip = open.window->findChild<app::KeyStrip*>();
    REQUIRE(strip != nullptr);
    QTest::mouseClick(strip, Qt::LeftButton, {}, QPoint(3, strip->height() / 2));
    REQUIRE(open.answered());
    const chart::Key& key = open.substitute().state().question.key;
    CHECK(open.substitute().state().question.wanted.code == key.front().code);
}

TEST_CASE("each switch of the question changes the answer at once") {
    OpenWindow open;
    openDemo(open);
    const auto& candidates = open.substitute().answer().candidates;

    press(open, QStringLiteral("Nearest"));
    REQUIRE(open.answered());
    CHECK(std::ranges::is_sorted(candidates, {}, &colourway::Candidate::de00));

    const auto toggle = [&](const QString& text) {
        auto* box = open.button<QCheckBox>(text);
        REQUIRE(box != nullptr);
        box->setFocus();
        QTest::keyClick(box, Qt::Key_Space);
        REQUIRE(open.answered());
    };
    toggle(QStringLiteral("Blends of two threads"));
    CHECK(std::ranges::none_of(candidates, &colourway::Candidate::isBlend));
    toggle(QStringLiteral("Only what I own"));
    CHECK_FALSE(candidates.empty());
    CHECK(std::ranges::all_of(candidates, &colourway::Candidate::isInStash));
    toggle(QStringLiteral("lanternfold-cotton  (420)"));
    CHECK(std::ranges::none_of(candidates, [](const colourway::Candidate& one) {
        return one.card() == QStringLiteral("lanternfold-cotton");
    }));

    const double before = candidates.front().de00;
    press(open, QStringLiteral("2:1:1"));
    REQUIRE(open.answered());
    CHECK(open.substitute().answer().state.question.weights == colour::kTextileWeights);
    CHECK(candidates.front().de00 <= before);
}

TEST_CASE("three strands in the needle allow blends of two and one") {
    OpenWindow open;
    openDemo(open);
    auto* strands = open.control<QSpinBox>(QStringLiteral("Strands in the needle"));
    REQUIRE(strands != nullptr);
    strands->setFocus();
    QTest::keyClick(strands, Qt::Key_Up);
    REQUIRE(open.answered());
    const auto& candidates = open.substitute().answer().candidates;
    const auto blend = std::ranges::find_if(candidates, &colourway::Candidate::isBlend);
    REQUIRE(blend != candidates.end());
    CHECK(blend->portions[0].strands == 2);
    CHECK(blend->portions[1].strands == 1);
}

TEST_CASE("the copied list names the wanted thread and every candidate") {
    OpenWindow open;
    openDemo(open);
    press(open, QStringLiteral("Copy list"));
    const QString text = QGuiApplication::clipboard()->text();
    CHECK(text.contains(QStringLiteral("LF-218 Harbour slate")));
    for (const auto& candidate : open.substitute().answer().candidates) {
        CAPTURE(candidate.code().toStdString());
        CHECK(text.contains(candidate.portions.front().thread.thread.code));
    }
    CHECK(text.contains(QStringLiteral("the skein in hand decides")));
}

TEST_CASE("enter on a candidate makes it the wanted one") {
    OpenWindow open;
    openDemo(open);
    press(open, QStringLiteral("Nearest"));
    auto* blends = open.button<QCheckBox>(QStringLiteral("Blends of two threads"));
    blends->setFocus();
    QTest::keyClick(blends, Qt::Key_Space);
    REQUIRE(open.answered());
    const QString code = firstCode(open);
    auto* list = open.control<QListView>(QStringLiteral("Candidates, nearest first"));
    REQUIRE(list != nullptr);
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Return);
    REQUIRE(open.answered());
    CHECK(open.substitute().state().question.wanted.code == code);
}

TEST_CASE("the question outlives the window") {
    OpenWindow open;
    openDemo(open);
    type(open, QStringLiteral("MS-66"));
    open.open();
    REQUIRE(open.answered());
    CHECK(open.window->session().wanted().code == QStringLiteral("MS-66"));
    CHECK(open.window->session().key().size() >= 9);
}

TEST_CASE("the switches outlive the window") {
    OpenWindow open;
    openDemo(open);
    press(open, QStringLiteral("Nearest"));
    press(open, QStringLiteral("2:1:1"));
    auto* box = open.button<QCheckBox>(QStringLiteral("Only what I own"));
    box->setFocus();
    QTest::keyClick(box, Qt::Key_Space);
    REQUIRE(open.answered());
    const app::SubstituteState before = open.substitute().state();
    open.open();
    REQUIRE(open.answered());
    CHECK(open.substitute().state() == before);
    CHECK(open.window->place() == app::PlaceId::Substitute);
}

TEST_CASE("the list says where the stash ends and the others begin") {
    OpenWindow open;
    openDemo(open);
    const auto* list = open.control<QListView>(QStringLiteral("Candidates, nearest first"));
    REQUIRE(list != nullptr);
    int sections = 0;
    for (int row = 0; row < list->model()->rowCount(); ++row) {
        const QString section = list->model()->index(row, 0).data(Qt::UserRole).toString();
        if (!section.isEmpty()) {
            const auto& one = open.substitute().answer().candidates[static_cast<std::size_t>(row)];
            CHECK(one.isInStash() == (sections == 0));
            ++sections;
        }
    }
    CHECK(sections == 2);
    press(open, QStringLiteral("Nearest"));
    REQUIRE(open.answered());
    CHECK(list->model()->index(0, 0).data(Qt::UserRole).toString().isEmpty());
}

TEST_CASE("a thread that the chart does not call for is not judged against it") {
    OpenWindow open;
    openDemo(open);
    CHECK_FALSE(open.substitute().answer().state.question.key.empty());
    type(open, QStringLiteral("LF-131"));
    CHECK(open.substitute().answer().state.question.key.empty());
}

TEST_CASE("a small window keeps the candidates and folds the plot away") {
    OpenWindow open;
    openDemo(open);
    const auto* list = open.control<QListView>(QStringLiteral("Candidates, nearest first"));
    const auto* plot = open.control<QWidget>(QStringLiteral("Where the colours lie"));
    REQUIRE(plot != nullptr);
    CHECK(plot->isVisible());
    open.window->resize(1000, 640);
    QTest::qWait(20);
    CHECK_FALSE(plot->isVisible());
    CHECK(list->width() >= 560);
}

TEST_CASE("with thirty thousand threads typing still answers within a second") {
    OpenWindow open;
    std::mt19937 random(7);
    std::uniform_int_distribution<int> part(0, 255);
    thread::ShadeCard large{QStringLiteral("large"), {}, {}};
    for (int i = 0; i < 30'000; ++i) {
        const auto byte = [&] { return static_cast<std::uint8_t>(part(random)); };
        large.threads.push_back(thread::threadOfSrgb(QStringLiteral("Q-%1").arg(i),
                                                     QStringLiteral("Shade %1").arg(i),
                                                     {byte(), byte(), byte()}));
    }
    open.document->addCard(large);
    open.window->show(app::PlaceId::Substitute);
    type(open, QStringLiteral("Q-12345"));
    CHECK(open.substitute().answer().threadsLookedAt == 30'000);
    CHECK(open.substitute().answer().candidates.size() == 20);
    // Generous: a loaded machine must not fail it, a search over all pairs one by one must.
    CHECK(open.substitute().answer().milliseconds < 1000);
}

TEST_CASE("in a chart of the workbox, candidates are judged by what they touch") {
    OpenWindow open;
    openDemo(open);
    auto* choice = open.control<QComboBox>(QStringLiteral("Chart to judge in"));
    REQUIRE(choice != nullptr);
    const int evening = choice->findText(QStringLiteral("Harbour evening"));
    REQUIRE(evening >= 0);
    choice->setFocus();
    choice->setCurrentIndex(evening);
    Q_EMIT choice->activated(evening);
    REQUIRE(open.answered());
    const auto& question = open.substitute().state().question;
    CHECK(question.key.size() == 26);
    CHECK_FALSE(question.touching.empty());
    CHECK(open.substitute().answer().candidates.front().costInChart.has_value());

    // The chart goes on being the one that is judged in, also after a restart.
    open.open();
    REQUIRE(open.answered());
    CHECK(open.window->session().keyName() == QStringLiteral("Harbour evening"));

    // Deleting it leaves Substitute without a chart, and undo brings it back to the workbox.
    open.document->removeChart(*open.window->session().keyChart());
    REQUIRE(open.answered());
    CHECK(open.substitute().state().question.key.empty());
}
