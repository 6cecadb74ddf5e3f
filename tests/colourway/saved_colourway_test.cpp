#include "colourway/saved_colourway.h"

#include "base/input_error.h"
#include "chart_samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

struct Made {
    std::vector<thread::ShadeCard> cards{wheelCard("w")};
    std::shared_ptr<const Subject> subject = subjectBy(By::Motif, houses(5), {&cards[0]});
    RecolourQuestion question;
    Colourway colourway;

    Made() {
        question.theme = GENERATE(
            Theme(Surprise{}), Theme(HueFamily{123.5, true}),
            Theme(FromPicture{{{40, 10, 20}, {60, -10, 5}}}),
            Theme(FromThreads{{{QStringLiteral("w"), QStringLiteral("w-3")}}}), Theme(AsCharted{}));
        question.ground = thread::groundOfSrgb(QStringLiteral("linen"), {0xcd, 0xbf, 0xa6});
        question.filter.finish = thread::Finish::Matt;
        question.seed = 18'000'000'000'000'000'007ULL;
        question.floor = 9.25;
        colourway = *recolour(*subject, question, *poolOf(cards, {}));
        question.locks[2] = colourway.now[2];
    }
};

} // namespace

TEST_CASE("a saved colourway comes back from its text with its question and locks") {
    const Made made;
    const SavedColourway before = saved(*made.subject, made.question, made.colourway);
    const QByteArray json = toJson(before);
    const SavedColourway after = fromJson(json, QStringLiteral("x"));
    CHECK(toJson(after) == json);
    const RestoredColourway back = restored(after, *made.subject, std::vector{&made.cards[0]});
    CHECK(back.question == made.question);
    CHECK(back.colourway.now == made.colourway.now);
}

TEST_CASE("a thread that its card has measured anew comes back in the new colour") {
    Made made;
    const SavedColourway before = saved(*made.subject, made.question, made.colourway);
    const QString code = made.colourway.now[0].code();
    for (thread::Thread& thread : made.cards[0].threads) {
        if (thread.code == code) {
            thread.lab.L += 2;
        }
    }
    const RestoredColourway back = restored(before, *made.subject, std::vector{&made.cards[0]});
    CHECK(back.colourway.now[0].lab.L == made.colourway.now[0].lab.L + 2);
}

TEST_CASE("a thread whose card is gone keeps the colour that it had") {
    const Made made;
    const SavedColourway before = saved(*made.subject, made.question, made.colourway);
    const RestoredColourway back = restored(before, *made.subject, {});
    CHECK(back.colourway.now[0].code() == made.colourway.now[0].code());
    CHECK(back.colourway.now[0].lab == made.colourway.now[0].lab);
}

TEST_CASE("text that is no saved colourway is refused in one line") {
    const auto line = [](const char* json) {
        try {
            (void)fromJson(json, QStringLiteral("colourway 7"));
        } catch (const base::InputError& error) {
            return std::string(error.what());
        }
        return std::string("accepted");
    };
    CHECK(line("") == "colourway 7: expected a saved colourway of version 1, found no JSON object");
    CHECK(line("{\"version\":2}") ==
          "colourway 7: expected a saved colourway of version 1, found another version");
    CHECK(line("{\"version\":1}") == "colourway 7: expected an object named question, found none");
}
