// The demo's question: what can stand in for the slate of the boathouse roofs?
#include "colourway/substitute.h"

#include "chart/key.h"
#include "samples.h"
#include "thread/ground_csv.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

const QString kFolder = QStringLiteral(OTHERSKEIN_SOURCE_DIR "/palettes/harbour-row/");

std::vector<thread::ShadeCard> demoCards() {
    std::vector<thread::ShadeCard> cards;
    for (const char* name : {"lanternfold-cotton", "mossip-silk", "tarrow-wool"}) {
        cards.push_back(
            thread::readShadeCard(kFolder + QString::fromLatin1(name) + QStringLiteral(".csv")));
    }
    return cards;
}

SubstituteQuestion roofQuestion(const std::vector<thread::ShadeCard>& cards) {
    const thread::Thread* slate = thread::findThread(cards.at(0), QStringLiteral("LF-218"));
    REQUIRE(slate != nullptr);
    SubstituteQuestion question = questionOf("lanternfold-cotton", *slate);
    question.key = chart::readKey(kFolder + QStringLiteral("harbour-row.key.csv"));
    question.blends = true;
    return question;
}

} // namespace

TEST_CASE("the demo's files are read whole") {
    const auto cards = demoCards();
    CHECK(cards[0].threads.size() == 420);
    CHECK(cards[1].threads.size() == 200);
    CHECK(cards[2].threads.size() == 140);
    CHECK(chart::readKey(kFolder + QStringLiteral("harbour-row.key.csv")).size() == 10);
    for (const thread::ShadeCard& card : cards) {
        CHECK((thread::parseShadeCard(thread::shadeCardCsv(card), card.name) == card));
    }
}

TEST_CASE("two owned cottons in one needle are the closest plain answer to the missing slate") {
    const auto cards = demoCards();
    const auto found = findSubstitutes(roofQuestion(cards), *poolOf(cards, {}));
    REQUIRE(found.size() == 10);
    // A blend with a variegated thread comes out a hair nearer on paper, and says so.
    CHECK(listed({found[0]}) == "1*lanternfold-cotton:LF-160+1*lanternfold-cotton:LF-941");
    REQUIRE(found[0].warnings.size() == 2);
    CHECK(found[0].warnings[0].kind == WarningKind::Variegated);
    CHECK(found[0].warnings[1].kind == WarningKind::Speckled);
    CHECK(listed({found[1]}) == "1*lanternfold-cotton:LF-224+1*lanternfold-cotton:LF-235");
    CHECK_THAT(found[1].de00, WithinAbs(0.2736, 5e-5));
    CHECK(found[1].isInStash());
    REQUIRE(found[1].warnings.size() == 1);
    CHECK(found[1].warnings[0].kind == WarningKind::WithinSpread);
}

TEST_CASE("the owned blend comes first from the stash and from plain cotton") {
    const auto cards = demoCards();
    SubstituteQuestion question = roofQuestion(cards);
    const std::string blend = "1*lanternfold-cotton:LF-224+1*lanternfold-cotton:LF-235";
    question.limit = 1;
    CHECK(ask(question, cards, {true, false, {}, {}}) == blend);
    CHECK(ask(question, cards, {false, true, {}, thread::Finish::Satin}) == blend);
    question.order = Order::StashFirst;
    CHECK(ask(question, cards) == blend);
}

TEST_CASE("no single thread of the demo is the slate exactly") {
    const auto cards = demoCards();
    SubstituteQuestion question = roofQuestion(cards);
    question.blends = false;
    question.limit = 3;
    const auto found = findSubstitutes(question, *poolOf(cards, {}));
    CHECK(listed(found) == "lanternfold-cotton:LF-235 mossip-silk:MS-66 lanternfold-cotton:LF-224");
    CHECK(found.at(0).de00 > 1); // what the eye can see
}
