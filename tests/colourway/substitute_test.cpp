#include "colourway/substitute.h"

#include "samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

const thread::Thread kWanted = threadOf("W", {50, 20, 10});

std::vector<thread::ShadeCard> twoCards() {
    return {cardOf("b", {threadOf("1", {50, 20, 12}), threadOf("2", {60, 20, 10})}),
            cardOf("a", {kWanted, threadOf("3", {52, 20, 10}), threadOf("4", {90, 0, 0})})};
}

} // namespace

TEST_CASE("single threads come nearest first and the wanted one is left out") {
    CHECK(ask(questionOf("a", kWanted), twoCards()) == "b:1 a:3 b:2 a:4");
}

TEST_CASE("a bare colour leaves no thread out") {
    CHECK(ask(questionOf(kWanted.lab), twoCards()) == "a:W b:1 a:3 b:2 a:4");
}

TEST_CASE("only the wanted thread of its own card is left out") {
    // The same code on another card is another thread.
    const auto cards = std::vector{cardOf("a", {kWanted}), cardOf("b", {kWanted})};
    CHECK(ask(questionOf("a", kWanted), cards) == "b:W");
    CHECK(ask(questionOf("c", kWanted), cards) == "a:W b:W");
}

TEST_CASE("the wanted thread is left out of blends too") {
    SubstituteQuestion question = questionOf("a", kWanted);
    question.blends = true;
    question.limit = 1000;
    const auto found = findSubstitutes(question, *poolOf(twoCards(), {}));
    CHECK(found.size() == 4 + 6); // four threads and their pairs
    for (const Candidate& candidate : found) {
        for (const Candidate::Portion& portion : candidate.portions) {
            CHECK(portion.thread.thread.code.toStdString() != "W");
        }
    }
}

TEST_CASE("no more candidates than the limit and none at all for nought") {
    SubstituteQuestion question = questionOf("a", kWanted);
    question.blends = true;
    for (const std::size_t limit : {0U, 1U, 2U, 7U, 10U, 100'000U}) {
        question.limit = limit;
        for (const Order order : {Order::Nearest, Order::StashFirst}) {
            question.order = order;
            CAPTURE(limit);
            CHECK(findSubstitutes(question, *poolOf(twoCards(), {})).size() ==
                  std::min<std::size_t>(limit, 10));
        }
    }
}

TEST_CASE("an empty pool has no candidates") {
    SubstituteQuestion question = questionOf("a", kWanted);
    question.blends = true;
    CHECK(ask(question, {}).empty());
    CHECK(ask(question, {cardOf("a", {kWanted})}).empty());
}

TEST_CASE("equal differences come by card then code and a thread before its blends") {
    // All the same colour, so every candidate is equally far.
    const colour::Lab lab{40, 10, 10};
    const auto cards = std::vector{cardOf("b", {threadOf("1", lab)}),
                                   cardOf("a", {threadOf("2", lab), threadOf("10", lab)})};
    SubstituteQuestion question = questionOf(lab);
    question.wanted.lab.L = 45;
    question.strands = 3;
    CHECK(ask(question, cards) == "a:10 a:2 b:1");
    question.blends = true;
    // Rounding may part the mix of equal colours from the colour itself; only order matters here.
    const auto found = findSubstitutes(question, *poolOf(cards, {}));
    REQUIRE(found.size() == 9);
    for (std::size_t i = 1; i < found.size(); ++i) {
        CHECK(found[i - 1].de00 <= found[i].de00);
        if (found[i - 1].de00 == found[i].de00) {
            CHECK(listed({found[i - 1]}) != listed({found[i]}));
        }
    }
}

TEST_CASE("filters let the right threads pass") {
    thread::Thread owned = threadOf("owned", {50, 0, 0});
    owned.stash = 0.25;
    owned.stock = thread::Stock::Discontinued;
    owned.fibre = QStringLiteral("Cotton");
    thread::Thread gone = threadOf("out", {51, 0, 0});
    gone.stock = thread::Stock::Out;
    gone.fibre = QStringLiteral("silk");
    gone.finish = thread::Finish::Satin;
    thread::Thread ended = threadOf("ended", {52, 0, 0});
    ended.stock = thread::Stock::Discontinued;
    thread::Thread shop = threadOf("shop", {53, 0, 0});
    shop.stock = thread::Stock::In;
    shop.finish = thread::Finish::Matt;
    shop.fibre = QStringLiteral("cotton");
    const thread::Thread unknown = threadOf("unknown", {54, 0, 0});
    const std::vector cards{cardOf("a", {owned, gone, ended, shop, unknown})};
    // In order: only the stash, only what is in stock, fibre, finish.
    const auto passing = [&](const PoolFilter& filter) {
        return ask(questionOf({50, 0, 0}), cards, filter);
    };
    CHECK(passing({}) == "a:owned a:out a:ended a:shop a:unknown");
    CHECK(passing({true, false, {}, {}}) == "a:owned");
    // What nobody said to be gone may be in the shop; what is in the drawer is at hand.
    CHECK(passing({false, true, {}, {}}) == "a:owned a:shop a:unknown");
    CHECK(passing({false, false, QStringLiteral("COTTON"), {}}) == "a:owned a:shop");
    CHECK(passing({false, false, {}, thread::Finish::Satin}) == "a:out");
    CHECK(passing({false, false, {}, thread::Finish::Unstated}) == "a:owned a:ended a:unknown");
    CHECK(passing({false, true, {}, thread::Finish::Matt}) == "a:shop");
}

TEST_CASE("a candidate says all about its difference") {
    const auto cards = std::vector{cardOf("a", {threadOf("1", {53, 20, 10})})};
    const auto found = findSubstitutes(questionOf({50, 20, 10}), *poolOf(cards, {}));
    REQUIRE(found.size() == 1);
    // Same a* and b*, L* three lighter: dE*ab 3; SL at 51.5 is 1 + 0.015*2.25/sqrt(22.25)
    // = 1.00716.
    CHECK_THAT(found[0].de00, WithinAbs(3 / 1.00716, 5e-5));
    CHECK_THAT(found[0].deEab, WithinAbs(3, 1e-12));
    CHECK_THAT(found[0].parts.dL, WithinAbs(3, 1e-12));
    CHECK_THAT(found[0].parts.dC, WithinAbs(0, 1e-12));
    CHECK_THAT(found[0].parts.dH, WithinAbs(0, 1e-12));
    CHECK(found[0].words.toStdString() == "A little lighter");
    CHECK(found[0].greyScale.toStdString() == "3"); // of ISO 105-A02's 2.5 and 3.4, 3.4
    CHECK(found[0].card().toStdString() == "a");
    CHECK(found[0].code().toStdString() == "1");
    CHECK(found[0].name().toStdString() == "Shade 1");
}

TEST_CASE("a blend names both of its threads") {
    const auto cards = std::vector{cardOf("a", {threadOf("1", {40, 0, 0})}),
                                   cardOf("b", {threadOf("2", {60, 0, 0})})};
    SubstituteQuestion question = questionOf({51, 0, 0});
    question.blends = true;
    question.limit = 1;
    const auto found = findSubstitutes(question, *poolOf(cards, {}));
    REQUIRE(found.size() == 1);
    REQUIRE(found[0].isBlend());
    CHECK(found[0].card().toStdString() == "a + b");
    CHECK(found[0].code().toStdString() == "1 + 2");
    CHECK(found[0].name().toStdString() == "Shade 1 + Shade 2");
    // Y of L* 40 is (56/116)^3 = 0.112509, of L* 60 (76/116)^3 = 0.281234; mean 0.196871: L* 51.48.
    CHECK_THAT(found[0].lab.L, WithinAbs(51.48, 5e-3));
}

TEST_CASE("a search that is asked to stop has no answer") {
    std::vector<thread::Thread> threads;
    for (int i = 0; i < 400; ++i) { // scattered, so that no group can be passed over early
        threads.push_back(threadOf(QByteArray::number(i).constData(),
                                   {20.0 + i % 61, i * 37 % 90 - 45.0, i * 53 % 80 - 40.0}));
    }
    const auto pool = poolOf({cardOf("a", threads)}, {});
    SubstituteQuestion question = questionOf({50, 20, 10});
    question.blends = true;
    question.strands = 6;
    question.limit = 1000;
    int asked = 0;
    const thread::StopAsked once = [&asked] { return ++asked == 1; };
    CHECK(findSubstitutes(question, *pool, once).empty());
    CHECK(asked == 1);
    CHECK(findSubstitutes(question, *pool, [] { return false; }).size() == 1000);
}
