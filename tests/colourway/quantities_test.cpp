#include "colourway/quantities.h"

#include "chart_samples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numbers>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Stitched onCount(int count, int over, std::optional<int> strands) {
    Stitched stitched;
    stitched.ground.count = count;
    stitched.ground.over = over;
    stitched.strands = strands;
    return stitched;
}

/// Ten A, five B, and a line of four cells in A.
chart::Chart twoRows() {
    chart::Chart chart =
        drawn({"AAAAABBBBB", "AAAAA....."}, {{0x40, 0x50, 0x70}, {0xc0, 0x80, 0x40}});
    chart.lines = {{0, 0, 8, 0, 0}};
    chart.key[0].strands = 3;
    return chart;
}

} // namespace

TEST_CASE("thread for a cross and for backstitch follows from the cell") {
    thread::Ground ground;
    ground.count = 14;
    ground.over = 1;
    // s = 25.4 / 14 = 1.814 mm; (2·1.41421 + 2)·s = 8.760 mm, worked by hand.
    CHECK_THAT(crossMm(ground), WithinAbs(8.760, 5e-4));
    // One cell: 1.814 in front, twice that behind.
    CHECK_THAT(backstitchMm(ground, 1), WithinAbs(5.443, 5e-4));
    ground.count = 28;
    ground.over = 2;
    CHECK_THAT(crossMm(ground), WithinAbs(8.760, 5e-4));
}

TEST_CASE("a needle drawn through a cloth step by step takes as much thread as the formula") {
    // Rows of crosses, each finished before the next: up lower left, down upper right, up lower
    // right, down upper left, and on to the next cell's lower left. Holes at whole numbers.
    const double root = std::numbers::sqrt2;
    double length = 0;
    constexpr int kCrosses = 1000;
    for (int i = 0; i < kCrosses; ++i) {
        length += root; // front leg
        length += 1;    // behind, along the right side
        length += root; // top leg, ends upper left
        length += 1;    // behind, down the left side: the next cross begins one cell on, along the
                        // bottom that the first leg of the next one covers
    }
    thread::Ground inch;
    inch.count = 5;
    inch.over = 1;
    CHECK_THAT(length / kCrosses * thread::cellSideMm(inch), WithinRel(crossMm(inch), 1e-12));
}

TEST_CASE("skeins count strands, waste, backstitch and plies") {
    const thread::ShadeCard card =
        cardOf("charted", {threadOf("C-1", {30, 0, -20}), threadOf("C-2", {60, 20, 40})});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const Quantities found = quantitiesOf(twoRows(), onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(found.threads.size() == 2);
    const Quantity& one = found.threads[0];
    CHECK(one.stitches == 10);
    CHECK_THAT(one.lineCells, WithinAbs(4, 1e-12));
    CHECK(one.strands == 3);
    // 10 · 8.760 · 3 + 4 · 5.443 · 1 = 284.57 mm
    CHECK_THAT(one.metres, WithinAbs(0.28457, 2e-5));
    CHECK_THAT(one.skeins, WithinAbs(0.28457 * 1.2 / 48, 1e-6));
    CHECK_FALSE(one.assumed);
    CHECK(one.toBuy == 1);
    CHECK(found.toBuy == 2);
    CHECK(found.threads[1].strands == 2);
    // Strands for all rows stand before the key's; backstitch keeps its own.
    const Quantities thin = quantitiesOf(twoRows(), onCount(14, 1, 1), {0.0, 2}, cards);
    CHECK_THAT(thin.threads[0].metres, WithinAbs((10 * 8.7601 + 4 * 5.4429 * 2) / 1000, 2e-5));
    CHECK_THAT(thin.threads[0].skeins, WithinAbs(thin.threads[0].metres / 48, 1e-9));
}

TEST_CASE("whole skeins are bought beside the stash and lots are warned of") {
    CHECK(skeinsToBuy(2.0, 0) == 2);
    CHECK(skeinsToBuy(2.0000000001, 0) == 2);
    CHECK(skeinsToBuy(2.01, 0) == 3);
    CHECK(skeinsToBuy(0.3, 0.5) == 0);
    CHECK(skeinsToBuy(1.3, 0.5) == 1);
    CHECK(skeinsToBuy(0, 0) == 0);
    thread::Thread owned = threadOf("C-1", {30, 0, -20});
    owned.stash = 0.001;
    const thread::ShadeCard card = cardOf("charted", {owned});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const Quantities found = quantitiesOf(twoRows(), onCount(14, 1, 2), {}, cards);
    CHECK(found.threads[0].toBuy == 1);
    CHECK(found.mixesLots);
    // The other row is on no card: six plies of 8 m, nothing known of a stash.
    CHECK(found.threads[1].assumed);
    CHECK(found.threads[1].plies == 6);
    CHECK(found.threads[1].skeinM == 8);
}

TEST_CASE("two rows in one thread are one line to buy, and a blend shares its needle") {
    chart::Chart chart = twoRows();
    chart.key[1].code = chart.key[0].code;
    const thread::ShadeCard card =
        cardOf("charted", {threadOf("C-1", {30, 0, -20}), threadOf("C-2", {60, 20, 40})});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const Quantities same = quantitiesOf(chart, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(same.threads.size() == 1);
    CHECK(same.threads[0].stitches == 15);
    CHECK_FALSE(same.threads[0].strands); // three and two

    chart = twoRows();
    chart.lines.clear();
    chart.key[0].code = QStringLiteral("C-1 + C-2");
    chart.key[0].strands = 2;
    const Quantities blend = quantitiesOf(chart, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(blend.threads.size() == 2);
    CHECK_THAT(blend.threads[0].metres, WithinAbs(10 * 8.7601 / 1000, 2e-5));
    CHECK_THAT(blend.threads[1].metres, WithinAbs((10 + 5 * 2) * 8.7601 / 1000, 2e-5));
}

TEST_CASE("an odd strand of a blend in a key is the first thread's") {
    chart::Chart chart = drawn({"AAAAAAAAAA"}, {{0x40, 0x50, 0x70}});
    chart.key[0].code = QStringLiteral("C-1 + C-2");
    chart.key[0].strands = 3;
    const thread::ShadeCard card =
        cardOf("charted", {threadOf("C-1", {30, 0, -20}), threadOf("C-2", {60, 20, 40})});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const Quantities blend = quantitiesOf(chart, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(blend.threads.size() == 2);
    CHECK_THAT(blend.threads[0].metres, WithinAbs(10 * 2 * 8.7601 / 1000, 2e-5));
    CHECK_THAT(blend.threads[1].metres, WithinAbs(10 * 1 * 8.7601 / 1000, 2e-5));
    CHECK_FALSE(blend.threads[0].assumed);
    // Half of it unknown: one row of a thread that nobody knows.
    chart.key[0].code = QStringLiteral("C-1 + C-9");
    const Quantities unknown = quantitiesOf(chart, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(unknown.threads.size() == 1);
    CHECK(unknown.threads[0].assumed);
}

TEST_CASE("a blend of one code of two cards is told apart by its cards") {
    chart::Chart chart = drawn({"AAAAAAAAAA"}, {{0x40, 0x50, 0x70}});
    chart.key[0].card = QStringLiteral("quay + pier");
    thread::Thread thin = threadOf("C-1", {60, 20, 40});
    thin.lengthM = 5;
    const thread::ShadeCard quay = cardOf("quay", {threadOf("C-1", {30, 0, -20})});
    const thread::ShadeCard pier = cardOf("pier", {thin});
    const std::vector<const thread::ShadeCard*> cards{&quay, &pier};
    const Quantities blend = quantitiesOf(chart, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(blend.threads.size() == 2);
    CHECK(blend.threads[0].card == QStringLiteral("quay"));
    CHECK(blend.threads[1].card == QStringLiteral("pier"));
    CHECK(blend.threads[1].skeinM == 5);
    CHECK(blend.threads[0].metres == blend.threads[1].metres);
}

TEST_CASE("a colourway of motifs takes the thread of its motifs, lines included") {
    // Two motifs of one row, a line along the left one; the left one in a blend of two and one.
    chart::Chart chart = drawn({"AAAA..AAAA", "AAAA..AAAA"}, {{0x40, 0x50, 0x70}});
    chart.lines = {{0, 2, 8, 2, 0}};
    const thread::ShadeCard card =
        cardOf("charted", {threadOf("C-1", {30, 0, -20}), threadOf("C-2", {60, 20, 40})});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const auto subject = subjectOf(chart, By::Motif, {}, cards);
    REQUIRE(subject->parts.parts.size() == 2);
    const std::size_t left = subject->parts.parts[0].first.column == 0 ? 0 : 1;
    std::vector<Choice> now = subject->charted;
    // As a saved colourway has them: code and card, nothing of skeins.
    now[left].portions = {{QStringLiteral("charted"), threadOf("C-1", {30, 0, -20}), 2},
                          {QStringLiteral("charted"), threadOf("C-2", {60, 20, 40}), 1}};
    now[left].lab = {40, 7, 0};
    const Quantities found = quantitiesOf(*subject, now, onCount(14, 1, std::nullopt), {}, cards);
    REQUIRE(found.threads.size() == 2);
    const auto of = [&](const char* code) {
        return *std::ranges::find(found.threads, QString::fromLatin1(code), &Quantity::code);
    };
    // Line: 4 cells · 5.4429 mm in one strand, shared two to one.
    CHECK_THAT(of("C-1").metres,
               WithinAbs((8 * 8.7601 * 2 + 8 * 8.7601 * 2 + 4 * 5.4429 * 2 / 3) / 1000, 3e-5));
    CHECK_THAT(of("C-2").metres, WithinAbs((8 * 8.7601 * 1 + 4 * 5.4429 / 3) / 1000, 3e-5));
    CHECK(of("C-1").stitches == 16);
    CHECK(of("C-2").stitches == 8);
}

TEST_CASE("what a card says of a skein stands before what a colourway says") {
    thread::Thread owned = threadOf("C-2", {60, 20, 40});
    owned.strands = 2;
    owned.lengthM = 10;
    owned.stash = 3;
    const thread::ShadeCard card = cardOf("charted", {threadOf("C-1", {30, 0, -20}), owned});
    const std::vector<const thread::ShadeCard*> cards{&card};
    const auto subject = subjectOf(twoRows(), By::Colour, {}, cards);
    std::vector<Choice> now = subject->charted;
    now[1].portions = {{QStringLiteral("charted"), threadOf("C-2", {60, 20, 40}), 2}};
    const Quantities found = quantitiesOf(*subject, now, onCount(14, 1, 2), {}, cards);
    CHECK(found.threads[1].plies == 2);
    CHECK(found.threads[1].skeinM == 10);
    CHECK(found.threads[1].stash == 3);
    CHECK(found.threads[1].toBuy == 0);
}

TEST_CASE("a need beyond all measure stays a number") {
    CHECK(skeinsToBuy(1e300, 0) == 1'000'000'000);
    CHECK(skeinsToBuy(0, 1e300) == 0);
}

TEST_CASE("a skein that was counted gives the share that reproduces it") {
    thread::Ground ground;
    ground.count = 14;
    ground.over = 1;
    const thread::Thread skein; // six plies of 8 m
    const auto waste = wasteFromSkein(1800, skein, ground, 2);
    REQUIRE(waste);
    CHECK_THAT(1800 * 2 * crossMm(ground) * (1 + *waste), WithinAbs(48'000, 1e-6));
    CHECK_FALSE(wasteFromSkein(100, skein, ground, 2));
    CHECK_FALSE(wasteFromSkein(100'000, skein, ground, 2));
    CHECK_FALSE(wasteFromSkein(0, skein, ground, 2));
    CHECK_FALSE(wasteFromSkein(1800, skein, ground, 0));
}

TEST_CASE("a skein goes about as far as rules of thumb say") {
    // Six plies of 8 m, two strands, 14 holes an inch. 1,500 crosses a skein are often reckoned,
    // waste included (common practice, no source); a stitcher who counted got 404 out of a metre of
    // the uncut skein, 3,232 in all (a question-and-answer page among stored public web pages).
    // They scatter, and ours lies between.
    thread::Ground ground;
    ground.count = 14;
    ground.over = 1;
    const double crosses = 48'000 / (2 * crossMm(ground) * (1 + Usage{}.waste));
    CHECK(crosses > 1500);
    CHECK(crosses < 3232);
    // Both hands can be calibrated.
    CHECK(wasteFromSkein(1500, thread::Thread{}, ground, 2));
    CHECK(wasteFromSkein(3232, thread::Thread{}, ground, 2));
}
