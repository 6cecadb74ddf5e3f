#include "chart_samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

Choice choiceOf(const char* code, const colour::Srgb8& srgb, int strands = 2) {
    const thread::Thread thread =
        thread::threadOfSrgb(QString::fromLatin1(code), QString::fromLatin1(code), srgb);
    return {{{QStringLiteral("card"), thread, strands}}, thread.lab};
}

} // namespace

TEST_CASE("rows that take one thread become one row of the key") {
    const chart::Chart chart = drawn({"AB.C"}, {{1, 1, 1}, {2, 2, 2}, {3, 3, 3}});
    const auto subject = subjectBy(By::Colour, chart, {});
    Colourway colourway;
    colourway.now = {choiceOf("x", {200, 0, 0}), choiceOf("y", {0, 200, 0}),
                     choiceOf("x", {200, 0, 0})};
    const chart::Chart worked = workedChart(*subject, colourway);
    CHECK(worked.isConsistent());
    REQUIRE(worked.key.size() == 2);
    CHECK(worked.key[0].code == QStringLiteral("x"));
    CHECK(worked.key[0].stitches == 2);
    CHECK(worked.key[0].symbol == QStringLiteral("A"));
    CHECK(worked.grid.at({0, 0}) == worked.grid.at({3, 0}));
    CHECK(worked.grid.at({2, 0}) == chart::kBare);
}

TEST_CASE("two threads that a screen shows alike keep pixels of their own") {
    const chart::Chart chart = drawn({"AB"}, {{1, 1, 1}, {2, 2, 2}});
    const auto subject = subjectBy(By::Colour, chart, {});
    Colourway colourway;
    colourway.now = {choiceOf("x", {255, 255, 255}), choiceOf("y", {255, 255, 255})};
    const chart::Chart worked = workedChart(*subject, colourway);
    CHECK(worked.isConsistent());
    REQUIRE(worked.key.size() == 2);
    CHECK_FALSE((worked.key[0].pixel == worked.key[1].pixel));
}

TEST_CASE("backstitch follows its row, and in a motif chart the motif that it runs along") {
    chart::Chart chart = drawn({"AA...AA", "AA...AA"}, {{1, 1, 1}, {200, 200, 200}});
    chart.lines = {{0, 0, 4, 0, 0}, {10, 0, 14, 0, 0}, {4, 0, 10, 4, 1}};
    const auto rows = subjectBy(By::Colour, chart, {});
    REQUIRE(rows->parts.parts.size() == 2); // the second row has a line only
    Colourway byRow;
    byRow.now = {choiceOf("x", {200, 0, 0}), choiceOf("y", {0, 200, 0})};
    const chart::Chart worked = workedChart(*rows, byRow);
    CHECK(worked.key[worked.lines[0].key].code == QStringLiteral("x"));
    CHECK(worked.key[worked.lines[2].key].code == QStringLiteral("y"));

    const auto motifs = subjectBy(By::Motif, chart, {});
    REQUIRE(motifs->parts.parts.size() == 2);
    Colourway byMotif;
    byMotif.by = By::Motif;
    byMotif.now = {choiceOf("left", {200, 0, 0}), choiceOf("right", {0, 200, 0})};
    const chart::Chart many = workedChart(*motifs, byMotif);
    CHECK(many.isConsistent());
    CHECK(many.key[many.lines[0].key].code == QStringLiteral("left"));
    CHECK(many.key[many.lines[1].key].code == QStringLiteral("right"));
    CHECK(many.key[many.lines[2].key].code == QStringLiteral("C-2")); // as charted
}
