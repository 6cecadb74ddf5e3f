// What a substitute does to the rest of the chart's key.
#include "colourway/substitute_warnings.h"

#include "warning_samples.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

/// A grey wanted, a grey candidate and a key of one row; near L* 50 ΔE00 is about ΔL*.
std::string askGreys(double wanted, double candidate, double row) {
    SubstituteQuestion question = questionOf("card", threadOf("W", {wanted, 0, 0}));
    question.key = {keyRow("card", "K", {row, 0, 0})};
    return warned(candidateOf(threadOf("C", {candidate, 0, 0})), question);
}

colour::Lab ofHue(double L, double chroma, double degrees) {
    const double radians = degrees * std::numbers::pi / 180;
    return {L, chroma * std::cos(radians), chroma * std::sin(radians)};
}

std::string ask(const colour::Lab& wanted, const colour::Lab& candidate, const colour::Lab& row) {
    SubstituteQuestion question = questionOf(wanted);
    question.key = {keyRow("card", "K", row)};
    return warned(candidateOf(threadOf("C", candidate)), question);
}

} // namespace

TEST_CASE("coming closer to another thread of the key than 5 is warned of") {
    // About the middle: 47.501 and 52.5 are 4.999 apart.
    CHECK(askGreys(40, 47.501, 52.5) == "close-in-key");
    CHECK(askGreys(40, 47.499, 52.5).empty());
}

TEST_CASE("a thread no closer in the key than the wanted one was is not warned of") {
    CHECK(askGreys(49, 48, 51).empty()); // 3 apart now, but only 2 before
    CHECK(askGreys(48, 49, 51) == "close-in-key");
    CHECK(askGreys(48, 48, 51).empty());
}

TEST_CASE("closeness in the key follows the weights of the question") {
    SubstituteQuestion question = questionOf({30, 0, 0});
    question.key = {keyRow("card", "K", {54, 0, 0})};
    const Candidate candidate = candidateOf(threadOf("C", {46, 0, 0})); // 8 apart, 4 by 2:1:1
    CHECK(warned(candidate, question).empty());
    question.weights = colour::kTextileWeights;
    CHECK(warned(candidate, question) == "close-in-key");
}

TEST_CASE("the wanted thread's own row of the key does not count") {
    SubstituteQuestion question = questionOf("card", threadOf("W", {50, 0, 0}));
    const Candidate candidate = candidateOf(threadOf("C", {51, 0, 0}));
    question.key = {keyRow("card", "W", {53, 0, 0})};
    CHECK(warned(candidate, question).empty());
    question.key = {keyRow("", "W", {53, 0, 0})}; // a key without cards
    CHECK(warned(candidate, question).empty());
    question.key = {keyRow("another", "W", {53, 0, 0})};
    CHECK(warned(candidate, question) == "close-in-key");
}

TEST_CASE("a thread that the chart has already is named once") {
    SubstituteQuestion question = questionOf("card", threadOf("W", {40, 0, 0}));
    const thread::Thread known = threadOf("K", {50, 0, 0});
    question.key = {keyRow("card", "K", {50, 0, 0})};
    CHECK(warned(candidateOf(known), question) == "already-in-key");
    question.key = {keyRow("", "K", {50, 0, 0})};
    CHECK(warned(candidateOf(known), question) == "already-in-key");
    // The same code on another card is another thread, only a close one.
    question.key = {keyRow("another", "K", {50, 0, 0})};
    CHECK(warned(candidateOf(known), question) == "close-in-key");
    // A blend with it is another colour.
    question.key = {keyRow("card", "K", {70, 0, 0})};
    CHECK(warned(blendOf(known, 1, threadOf("C", {50, 0, 0}), 1), question).empty());
}

TEST_CASE("a neutral ramp keeps its order") {
    CHECK(askGreys(40, 70, 60) == "out-of-order");
    CHECK(askGreys(80, 50, 60) == "out-of-order");
    CHECK(askGreys(40, 54, 60).empty());
    CHECK(askGreys(80, 66, 60).empty());
    // Equal is close, but not swapped.
    CHECK(askGreys(40, 60, 60) == "close-in-key");
    CHECK(askGreys(60, 50, 60).empty());
}

TEST_CASE("a swap says which way it goes") {
    SubstituteQuestion question = questionOf({40, 0, 0});
    question.key = {keyRow("card", "K", {60, 0, 0})};
    const auto lighter = warningsFor(candidateOf(threadOf("C", {70, 0, 0})), question);
    REQUIRE(lighter.size() == 1);
    CHECK(lighter[0].text.toStdString() == "Out of order: lighter than K, should be darker");
    question.wanted.lab.L = 80;
    const auto darker = warningsFor(candidateOf(threadOf("C", {50, 0, 0})), question);
    REQUIRE(darker.size() == 1);
    CHECK(darker[0].text.toStdString() == "Out of order: darker than K, should be lighter");
}

TEST_CASE("a ramp is a hue and 25 degrees to either side") {
    for (const double hue : {40.0, 350.0, 10.0}) { // also astride 0
        CAPTURE(hue);
        const colour::Lab wanted = ofHue(40, 30, hue);
        const colour::Lab candidate = ofHue(70, 30, hue);
        CHECK(ask(wanted, candidate, ofHue(55, 30, hue + 24.99)) == "out-of-order");
        CHECK(ask(wanted, candidate, ofHue(55, 30, hue - 24.99)) == "out-of-order");
        CHECK(ask(wanted, candidate, ofHue(55, 30, hue + 25.01)).empty());
        CHECK(ask(wanted, candidate, ofHue(55, 30, hue - 25.01)).empty());
    }
}

TEST_CASE("a neutral and a coloured thread are of no one ramp") {
    CHECK(ask(ofHue(40, 30, 40), ofHue(70, 30, 40), ofHue(55, 5.99, 40)).empty());
    CHECK(ask(ofHue(40, 30, 40), ofHue(70, 30, 40), ofHue(55, 6.01, 40)) == "out-of-order");
    CHECK(ask(ofHue(40, 5.99, 40), ofHue(70, 5.99, 40), ofHue(55, 30, 40)).empty());
    // Two near neutrals are one ramp whatever their hues.
    CHECK(ask(ofHue(40, 5.99, 40), ofHue(70, 5.99, 40), ofHue(55, 5.99, 220)) == "out-of-order");
}

TEST_CASE("every row of the key is looked at") {
    SubstituteQuestion question = questionOf({40, 0, 0});
    question.key = {keyRow("card", "1", {60, 0, 0}), keyRow("card", "2", {66, 0, 0}),
                    keyRow("card", "3", {72, 0, 0})};
    CHECK(warned(candidateOf(threadOf("C", {70, 0, 0})), question) ==
          "out-of-order close-in-key out-of-order close-in-key");
}

TEST_CASE("a blend is held against the key by its mean") {
    SubstituteQuestion question = questionOf({40, 0, 0});
    question.key = {keyRow("card", "K", {51.5, 0, 0})};
    CHECK(warned(blendOf(threadOf("C", {46, 0, 0}), 1, threadOf("D", {56, 0, 0}), 1), question) ==
          "close-in-key");
}
