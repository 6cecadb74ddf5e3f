#include "chart_samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

/// A red ramp beside black, white and one green leaf.
chart::Chart redChart() {
    return drawn({"AABBCCDD", "AABBCCDD", "EEFFGGEE", "EEFFGGEE"}, {{0x5a, 0x10, 0x18},
                                                                    {0x94, 0x20, 0x2a},
                                                                    {0xc8, 0x4a, 0x50},
                                                                    {0xe8, 0x98, 0x98},
                                                                    {0x10, 0x10, 0x12},
                                                                    {0xf8, 0xf6, 0xf0},
                                                                    {0x3c, 0x6a, 0x34}});
}

double hueApart(const colour::Lab& lab, double hue) {
    return std::abs(std::remainder(colour::hueDegrees(lab) - hue, 360));
}

struct Asked {
    std::shared_ptr<const Subject> subject;
    RecolourQuestion question;
    std::shared_ptr<const thread::ThreadPool> pool;
    std::vector<thread::ShadeCard> cards{wheelCard("w")};

    Asked() {
        question.by = By::Colour;
        question.theme = HueFamily{150, false};
        question.stashFirst = false;
        question.ground = thread::groundOfSrgb(QStringLiteral("white"), {255, 255, 255});
        subject = subjectBy(By::Colour, redChart(), {&cards[0]});
        pool = poolOf(cards, {});
    }
    [[nodiscard]] Colourway answer() const { return *recolour(*subject, question, *pool); }
};

} // namespace

TEST_CASE("a red chart becomes green and keeps its order of lightness") {
    const Asked asked;
    const Colourway green = asked.answer();
    REQUIRE(green.now.size() == 7);
    for (const std::size_t part : {0, 1, 2, 3, 6}) {
        CAPTURE(part, green.now[part].code().toStdString());
        CHECK(hueApart(green.now[part].lab, 150) < 30);
        CHECK(colour::chroma(green.now[part].lab) > 8);
        CHECK(std::abs(green.now[part].lab.L - asked.subject->charted[part].lab.L) < 9);
    }
    CHECK(green.figures.orderKept > 0.97);
}

TEST_CASE("black and white stay neutral unless asked") {
    Asked asked;
    const Colourway plain = asked.answer();
    CHECK(colour::chroma(plain.now[4].lab) < 3);
    CHECK(colour::chroma(plain.now[5].lab) < 3);
    asked.question.theme = HueFamily{150, true};
    asked.cards[0] = wheelCard("w");
    asked.cards[0].threads.push_back(threadOf("dark-green", polar(8, 9, 150)));
    asked.pool = poolOf(asked.cards, {});
    CHECK(asked.answer().now[4].code() == QStringLiteral("dark-green"));
}

TEST_CASE("a kept row stays, whatever hue is asked for") {
    Asked asked;
    asked.question.locks[1] = asked.subject->charted[1];
    const Colourway green = asked.answer();
    CHECK(green.now[1] == asked.subject->charted[1]);
    CHECK(hueApart(green.now[0].lab, 150) < 30);
}

TEST_CASE("at most as many threads as asked for") {
    Asked asked;
    asked.question.colours = 3;
    CHECK(asked.answer().figures.threads <= 3);
}

TEST_CASE("the same question has the same answer, bit for bit") {
    const Asked asked;
    CHECK(asked.answer() == asked.answer());
}

TEST_CASE("only the stash is used when only the stash is asked for") {
    Asked asked;
    for (std::size_t i = 0; i < asked.cards[0].threads.size(); i += 3) {
        asked.cards[0].threads[i].stash = 1;
    }
    asked.question.filter.onlyStash = true;
    asked.pool = poolOf(asked.cards, asked.question.filter);
    const Colourway green = asked.answer();
    for (const Choice& choice : green.now) {
        CHECK(choice.isInStash());
    }
    CHECK(green.figures.threadsToBuy == 0);
}

TEST_CASE("an empty drawer is refused in one line") {
    Asked asked;
    asked.pool = poolOf(std::vector<thread::ShadeCard>{}, {});
    CHECK_THROWS_WITH(asked.answer(), "the shade cards: expected at least one thread that may be "
                                      "chosen, found none");
}

TEST_CASE("a chart without a stitch is refused in one line") {
    Asked asked;
    asked.subject = subjectBy(By::Colour, drawn({"...", "..."}, {}), {});
    CHECK_THROWS_WITH(asked.answer(),
                      "drawn: expected a chart with at least one stitch, found bare ground only");
}

TEST_CASE("stopping gives nothing rather than half an answer") {
    const Asked asked;
    CHECK_FALSE(recolour(*asked.subject, asked.question, *asked.pool, [](double) {
                    return false;
                }).has_value());
}
