#include "chart_samples.h"
#include "colour/mixing.h"
#include "colourway/coverage.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

Choice choiceOf(const char* code, const colour::Lab& lab, double stash = 0) {
    thread::Thread thread = threadOf(code, lab);
    thread.stash = stash;
    return {{{QStringLiteral("card"), thread, 2}}, lab};
}

} // namespace

TEST_CASE("the figures of a colourway are those of its threads") {
    const chart::Chart chart =
        drawn({"AABB..CC", "AABB..CC"}, {{40, 40, 40}, {120, 120, 120}, {200, 200, 200}});
    const auto subject = subjectBy(By::Colour, chart, {});
    RecolourQuestion question;
    question.by = By::Colour;
    question.ground = thread::groundOfSrgb(QStringLiteral("navy"), {0x23, 0x2c, 0x40});
    const std::vector<Choice> now{choiceOf("a", {30, 10, 0}, 1), choiceOf("b", {60, 10, 0}),
                                  choiceOf("c", {50, -20, 0})};
    const Figures figures = figuresOf(*subject, question, now);

    // Only A and B touch: C stands across bare ground.
    REQUIRE(figures.leastBetweenNeighbours);
    CHECK_THAT(*figures.leastBetweenNeighbours,
               WithinAbs(colour::deltaE00(now[0].lab, now[1].lab), 1e-12));
    CHECK(figures.threads == 3);
    CHECK(figures.threadsToBuy == 2);
    double least = 1000;
    for (const Choice& choice : now) {
        const colour::Lab apparent =
            colour::apparentColour(choice.lab, question.ground.lab, coverage(question.ground, 2));
        least = std::min(least, colour::deltaE00(apparent, question.ground.lab));
    }
    CHECK_THAT(figures.leastOnGround, WithinAbs(least, 1e-12));

    // B and C have swapped; by hand, from the charted lightness of the three.
    const double ab = std::abs(subject->charted[0].lab.L - subject->charted[1].lab.L);
    const double ac = std::abs(subject->charted[0].lab.L - subject->charted[2].lab.L);
    const double bc = std::abs(subject->charted[1].lab.L - subject->charted[2].lab.L);
    CHECK_THAT(figures.orderKept, WithinAbs((ab + ac) / (ab + ac + bc), 1e-12));
}

TEST_CASE("a blend counts the threads in it, each once") {
    const auto subject = subjectBy(By::Colour, drawn({"AB"}, {{1, 1, 1}, {9, 9, 9}}), {});
    Choice blend = choiceOf("a", {30, 0, 0});
    blend.portions.push_back(choiceOf("b", {40, 0, 0}).portions.front());
    const Figures figures = figuresOf(*subject, {}, {blend, choiceOf("a", {30, 0, 0})});
    CHECK(figures.threads == 2);
}
