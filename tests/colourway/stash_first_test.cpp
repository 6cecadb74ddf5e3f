#include "colourway/substitute.h"

#include "samples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

thread::Thread owned(const char* code, const colour::Lab& lab) {
    thread::Thread one = threadOf(code, lab);
    one.stash = 1;
    return one;
}

SubstituteQuestion stashQuestion(std::size_t limit) {
    SubstituteQuestion question = questionOf({50, 0, 0});
    question.order = Order::StashFirst;
    question.limit = limit;
    return question;
}

/// Near the middle of the lightness axis ΔE00 is about ΔL*.
std::vector<thread::ShadeCard> drawer() {
    return {
        cardOf("a", {threadOf("s1", {51, 0, 0}), owned("o2", {52, 0, 0}),
                     threadOf("s3", {53, 0, 0}), owned("o4", {54, 0, 0}), owned("o5", {55, 0, 0}),
                     threadOf("s6", {56, 0, 0}), owned("o30", {80, 0, 0})})};
}

} // namespace

TEST_CASE("what the user owns comes first but fills at most half of the list") {
    CHECK(ask(stashQuestion(4), drawer()) == "a:o2 a:o4 a:s1 a:s3");
    CHECK(ask(stashQuestion(5), drawer()) == "a:o2 a:o4 a:o5 a:s1 a:s3"); // the half is rounded up
    CHECK(ask(stashQuestion(1), drawer()) == "a:o2");
    CHECK(ask(stashQuestion(0), drawer()).empty());
}

TEST_CASE("owned threads that find no room stand with the rest by difference") {
    CHECK(ask(stashQuestion(2), drawer()) == "a:o2 a:s1");
    // Room for three of the four near ones... o5 is third, and o30 is too far to come first.
    CHECK(ask(stashQuestion(6), drawer()) == "a:o2 a:o4 a:o5 a:s1 a:s3 a:s6");
    CHECK(ask(stashQuestion(100), drawer()) == "a:o2 a:o4 a:o5 a:s1 a:s3 a:s6 a:o30");
}

TEST_CASE("an owned thread farther than of use does not come first") {
    const auto firstOf = [](double L) {
        return ask(stashQuestion(10),
                   {cardOf("a", {owned("own", {L, 0, 0}), threadOf("shop", {51, 0, 0})})});
    };
    // ΔE00 5 lies at L* 55.094: SL there is 1 + 0.015 * 2.547^2 / sqrt(20 + 2.547^2) = 1.0189.
    CHECK(firstOf(55.08) == "a:own a:shop");
    CHECK(firstOf(55.11) == "a:shop a:own");
}

TEST_CASE("a blend counts as owned when every thread in it is") {
    SubstituteQuestion question = stashQuestion(6);
    question.blends = true;
    const auto cards = std::vector{cardOf(
        "a", {owned("o1", {46, 0, 0}), owned("o2", {54.5, 0, 0}), threadOf("s", {50, 0, 0})})};
    const auto found = findSubstitutes(question, *poolOf(cards, {}));
    CHECK(listed({found.begin(), found.begin() + 4}) == "1*a:o1+1*a:o2 a:o1 a:o2 a:s");
    CHECK(found.size() == 6);
    CHECK(found[0].isInStash());
    CHECK_FALSE(found[4].isInStash());
}

TEST_CASE("another mix of the same two threads is another candidate") {
    SubstituteQuestion question = stashQuestion(2); // room for one from the stash
    question.blends = true;
    question.strands = 4;
    const auto cards = std::vector{cardOf("a", {owned("o1", {44, 0, 0}), owned("o2", {56, 0, 0})})};
    CHECK(ask(question, cards) == "2*a:o1+2*a:o2 3*a:o1+1*a:o2");
}

TEST_CASE("the stash and the rest together hold no more blends than allowed") {
    SubstituteQuestion question = stashQuestion(1000);
    question.blends = true;
    for (const std::size_t most : {0U, 1U, 3U, 5U, 100U}) {
        question.mostBlends = most;
        const auto found = findSubstitutes(question, *poolOf(drawer(), {}));
        CAPTURE(most, listed(found));
        // Seven threads make 21 pairs.
        CHECK(std::ranges::count_if(found, &Candidate::isBlend) ==
              std::min<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(most), 21));
        CHECK(std::ranges::count_if(found, [](const Candidate& one) { return !one.isBlend(); }) ==
              7);
    }
}

TEST_CASE("no candidate stands in the list twice") {
    SubstituteQuestion question = stashQuestion(1000);
    question.blends = true;
    question.strands = 4;
    auto cards = drawer();
    cards.push_back(cardOf("b", {owned("o2", {52, 0, 0}), threadOf("s1", {51, 0, 0})}));
    const auto found = findSubstitutes(question, *poolOf(cards, {}));
    std::set<std::string> seen;
    for (const Candidate& candidate : found) {
        CAPTURE(listed({candidate}));
        CHECK(seen.insert(listed({candidate})).second);
    }
    // Nine threads, 36 halves and 72 mixes of 3 + 1.
    CHECK(found.size() == 9 + 36 + 72);
}
