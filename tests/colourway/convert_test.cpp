#include "chart_samples.h"

#include <catch2/catch.hpp>

#include <set>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

RecolourQuestion conversion() {
    RecolourQuestion question;
    question.by = By::Colour;
    question.theme = AsCharted{};
    question.stashFirst = false;
    question.ground = thread::groundOfSrgb(QStringLiteral("white"), {255, 255, 255});
    return question;
}

Colourway converted(const chart::Chart& chart, const std::vector<thread::ShadeCard>& cards) {
    const auto subject = subjectBy(By::Colour, chart, {&cards.front()});
    return *recolour(*subject, conversion(), *poolOf(cards, {}));
}

} // namespace

TEST_CASE("each row takes the nearest thread where nothing stands in the way") {
    const chart::Chart chart =
        drawn({"AAAA....BBBB", "AAAA....BBBB"}, {{0xb0, 0x30, 0x30}, {0x30, 0x50, 0xb0}});
    const colour::Lab red = chart.key[0].lab;
    const colour::Lab blue = chart.key[1].lab;
    const std::vector<thread::ShadeCard> cards{
        cardOf("line", {threadOf("near-red", {red.L + 1, red.a, red.b}),
                        threadOf("far-red", {red.L + 6, red.a, red.b}),
                        threadOf("near-blue", {blue.L + 1, blue.a, blue.b})})};
    const Colourway now = converted(chart, cards);
    CHECK(now.now[0].code() == QStringLiteral("near-red"));
    CHECK(now.now[1].code() == QStringLiteral("near-blue"));
}

TEST_CASE("two rows near one thread each get their own, in their order") {
    const chart::Chart chart = drawn({"AAAABBBB", "AAAABBBB"}, {{100, 100, 110}, {112, 112, 122}});
    const colour::Lab& a = chart.key[0].lab;
    const std::vector<thread::ShadeCard> cards{
        cardOf("line", {threadOf("dark", {a.L - 1, a.a, a.b}), threadOf("mid", {a.L + 2, a.a, a.b}),
                        threadOf("light", {a.L + 9, a.a, a.b})})};
    const Colourway now = converted(chart, cards);
    CHECK(now.now[0].code() != now.now[1].code());
    CHECK(now.now[0].lab.L < now.now[1].lab.L);
    CHECK_THAT(now.figures.orderKept, WithinAbs(1, 1e-12));
}

TEST_CASE("rows charted in one thread go on sharing one") {
    chart::Chart chart = drawn({"AABBCC", "AABBCC"}, {{200, 60, 60}, {201, 60, 60}, {60, 60, 200}});
    chart.key[1].code = chart.key[0].code;
    const std::vector<thread::ShadeCard> cards{wheelCard("w")};
    const Colourway now = converted(chart, cards);
    CHECK(now.now[0].code() == now.now[1].code());
    CHECK(now.now[0].code() != now.now[2].code());
}

TEST_CASE("what a line cannot keep apart is said, pair by pair") {
    const chart::Chart chart = drawn({"AAAABBBB", "AAAABBBB"}, {{60, 60, 60}, {120, 120, 120}});
    const colour::Lab& a = chart.key[0].lab;
    const std::vector<thread::ShadeCard> cards{
        cardOf("line", {threadOf("one", {a.L, 0, 0}), threadOf("two", {a.L + 3, 0, 0})})};
    const auto subject = subjectBy(By::Colour, chart, {&cards.front()});
    const Colourway now = *recolour(*subject, conversion(), *poolOf(cards, {}));
    const auto lost = lostSeparations(*subject, now.now);
    REQUIRE(lost.size() == 1);
    CHECK(lost[0].one == 0);
    CHECK(lost[0].other == 1);
    CHECK_THAT(lost[0].was, WithinAbs(colour::deltaE00(chart.key[0].lab, chart.key[1].lab), 1e-12));
    CHECK_THAT(lost[0].now, WithinAbs(colour::deltaE00(now.now[0].lab, now.now[1].lab), 1e-12));
}

TEST_CASE("a wall of conversions names where each takes its threads") {
    const std::vector<thread::ShadeCard> cards{wheelCard("one", 15), wheelCard("two", 20),
                                               wheelCard("three", 25)};
    const chart::Chart chart =
        drawn({"AABBCC", "AABBCC"}, {{0x44, 0x5d, 0x76}, {0xab, 0x34, 0x30}, {0x4a, 0x5f, 0x3d}});
    const auto subject = subjectBy(By::Colour, chart, {&cards[0], &cards[1], &cards[2]});
    const auto wall = alternatives(*subject, conversion(), *poolOf(cards, {}), 8);
    std::set<QString> names;
    for (const Colourway& one : wall) {
        names.insert(one.name);
    }
    CHECK(names.size() == wall.size());
    CHECK(names.contains(QStringLiteral("Nearest of all")));
    CHECK(names.contains(QStringLiteral("All of two")));
}
