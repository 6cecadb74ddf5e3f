#include "colourway/ways_out.h"

#include "chart_samples.h"
#include "colour/mixing.h"
#include "colourway/merging.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

thread::Ground clothOf(const colour::Srgb8& srgb, int count = 36, int over = 2) {
    thread::Ground one = thread::groundOfSrgb(QStringLiteral("cloth"), srgb);
    one.count = count;
    one.over = over;
    return one;
}

const colour::Srgb8 kNavy{0x20, 0x28, 0x40};
const colour::Srgb8 kCream{0xf2, 0xee, 0xe2};

/// Slate beside brick beside cream, each in its block; the slate is near to navy.
chart::Chart threeBlocks() {
    return drawn({"AAAABBBBCCCC", "AAAABBBBCCCC", "AAAABBBBCCCC"},
                 {{0x28, 0x31, 0x4a}, {0x9a, 0x4a, 0x3c}, {0xe8, 0xe0, 0xd0}});
}

struct OnTable {
    thread::ShadeCard card = wheelCard("w");
    std::vector<const thread::ShadeCard*> cards{&card};
    std::shared_ptr<const Subject> subject = subjectBy(By::Colour, threeBlocks(), cards);
    std::shared_ptr<const thread::ThreadPool> pool = poolOf(std::vector{card}, {});
    Stitched stitched{clothOf(kNavy), std::nullopt, {}};
};

} // namespace

TEST_CASE("a part near to the ground vanishes, by the colour that thread and ground make") {
    const OnTable table;
    const auto contrasts = contrastsOf(*table.subject, table.subject->charted, table.stitched);
    REQUIRE(contrasts.size() == 3);
    CHECK(contrasts[0].verdict == Verdict::Vanishes);
    CHECK(contrasts[1].verdict == Verdict::Clear);
    CHECK(contrasts[2].verdict == Verdict::Clear);
    const colour::Lab apparent =
        colour::apparentColour(table.subject->charted[0].lab, table.stitched.ground.lab,
                               coverage(table.stitched.ground, 2));
    CHECK_THAT(contrasts[0].de00,
               WithinAbs(colour::deltaE00(apparent, table.stitched.ground.lab), 1e-9));
}

TEST_CASE(
    "another thread leaves every other part alone, shows clearly and stays as near as it can") {
    const OnTable table;
    const auto& now = table.subject->charted;
    const auto pushed = pushedOff(*table.subject, now, {0}, table.stitched, {}, *table.pool);
    REQUIRE(pushed);
    CHECK((*pushed)[1] == now[1]);
    CHECK((*pushed)[2] == now[2]);
    const auto contrasts = contrastsOf(*table.subject, *pushed, table.stitched);
    CHECK(contrasts[0].de00 >= kClearFrom);
    // No thread that shows is nearer by much: the solver also keeps the parts apart and in order.
    double nearest = 1e9;
    for (const thread::PooledThread& one : table.pool->threads()) {
        const Contrast contrast =
            contrastOn(table.stitched.ground, one.thread.lab, coverage(table.stitched.ground, 2));
        if (contrast.de00 >= kClearFrom) {
            nearest = std::min(nearest, colour::deltaE00(one.thread.lab, now[0].lab));
        }
    }
    CHECK(colour::deltaE00((*pushed)[0].lab, now[0].lab) <= 1.5 * nearest);
}

TEST_CASE("the three ways out come with their figures") {
    const OnTable table;
    const std::vector<thread::Ground> grounds{clothOf({0x2c, 0x36, 0x50}), clothOf(kCream),
                                              clothOf({0x80, 0x90, 0x70})};
    const WaysOut ways = waysOut(*table.subject, table.subject->charted, 0, table.stitched, grounds,
                                 {}, *table.pool);
    // Slate stays slate on navy, however thickly it lies.
    CHECK_FALSE(ways.strands);
    REQUIRE(ways.grounds.size() == 2);
    for (const auto& way : ways.grounds) {
        CHECK(way.contrast.verdict != Verdict::Vanishes);
        Stitched there = table.stitched;
        there.ground = grounds[way.ground];
        const auto contrasts = contrastsOf(*table.subject, table.subject->charted, there);
        CHECK(way.contrast == contrasts[0]);
        CHECK(way.vanishing ==
              std::ranges::count(contrasts, Verdict::Vanishes, &Contrast::verdict));
    }
    // On the sage ground all parts show; cream vanishes on cream.
    CHECK(ways.grounds[0].ground == 2);
    CHECK(ways.grounds[0].vanishing == 0);
    CHECK(ways.grounds[1].vanishing == 1);
    REQUIRE(ways.thread);
    CHECK(ways.thread->contrast.de00 >= kClearFrom);
    CHECK(ways.thread->fromBefore > 0);
}

TEST_CASE("more strands are a way out where thin thread lets the ground through") {
    OnTable table;
    table.stitched.ground = clothOf(kNavy, 11, 1);
    table.stitched.strands = 1;
    const auto& now = table.subject->charted;
    // Brick on an open dark cloth with one strand.
    thread::Ground brown = clothOf({0x70, 0x3c, 0x34}, 11, 1);
    table.stitched.ground = brown;
    const auto before = contrastsOf(*table.subject, now, table.stitched);
    REQUIRE(before[1].verdict == Verdict::Vanishes);
    const WaysOut ways = waysOut(*table.subject, now, 1, table.stitched, {}, {}, *table.pool);
    REQUIRE(ways.strands);
    CHECK(ways.strands->strands > 1);
    CHECK(ways.strands->contrast.de00 >= kVanishesBelow);
    // One fewer would not do.
    Stitched fewer = table.stitched;
    fewer.strands = ways.strands->strands - 1;
    CHECK(contrastsOf(*table.subject, now, fewer)[1].verdict == Verdict::Vanishes);
}

TEST_CASE("where no thread shows nothing is pushed") {
    const OnTable table;
    const thread::ShadeCard dark = cardOf("d", {threadOf("d1", table.stitched.ground.lab)});
    const auto pool = poolOf(std::vector{dark}, {});
    const auto& now = table.subject->charted;
    CHECK(*pushedOff(*table.subject, now, {0}, table.stitched, {}, *pool) == now);
    CHECK_FALSE(waysOut(*table.subject, now, 0, table.stitched, {}, {}, *pool).thread);
    CHECK(*pushedOff(*table.subject, now, {}, table.stitched, {}, *table.pool) == now);
}

TEST_CASE("a wider thread covers more, and a blend by the width of each strand") {
    Stitched stitched{clothOf(kCream, 28, 1), std::nullopt, {{{QStringLiteral("wool"), 0.8}}}};
    thread::Thread cotton = threadOf("c", {50, 0, 0});
    thread::Thread wool = threadOf("w", {50, 0, 0});
    wool.fibre = QStringLiteral("Wool");
    Choice thin{{{QStringLiteral("k"), cotton, 1}}, cotton.lab};
    Choice thick{{{QStringLiteral("k"), wool, 1}}, wool.lab};
    Choice both{{{QStringLiteral("k"), cotton, 1}, {QStringLiteral("k"), wool, 1}}, wool.lab};
    CHECK(coverageOf(thin, 1, stitched) == coverage(stitched.ground, 1, 0.4));
    CHECK(coverageOf(thick, 1, stitched) == coverage(stitched.ground, 1, 0.8));
    CHECK(coverageOf(both, 2, stitched) == coverage(stitched.ground, 2, 0.6));
}

TEST_CASE("parts that touch and merge through other eyes are listed, longest border first") {
    // A red and a green of one lightness, a blue, and a light grey.
    const std::vector<colour::Lab> colours{{45, 35, 25}, {46, -12, 25}, {46, 5, -40}, {85, 0, 0}};
    const std::vector<chart::Neighbours> pairs{
        {0, 1, 4, 0}, {0, 2, 9, 1}, {0, 3, 20, 0}, {1, 2, 2, 0}};
    const auto values = mergingPairs(colours, pairs, {colour::Sight::Kind::Values, 1});
    REQUIRE(values.size() == 3);
    CHECK((values[0].one == 0 && values[0].other == 2 && values[0].touching == 10));
    CHECK((values[1].one == 0 && values[1].other == 1));
    CHECK((values[2].one == 1 && values[2].other == 2));
    CHECK_THAT(values[1].after, WithinAbs(1, 1e-9));

    // Two reds and greens that deutan eyes confuse: along the confusion line, not just equal in L*.
    const auto full = mergingPairs(colours, pairs, {});
    CHECK(full.empty());
    const std::vector<colour::Lab> confused{{45, 35, 25}, {51, -3, 25}};
    const std::vector<chart::Neighbours> touch{{0, 1, 4, 0}};
    const auto deutan = mergingPairs(confused, touch, {colour::Sight::Kind::Deutan, 1});
    const auto mild = mergingPairs(confused, touch, {colour::Sight::Kind::Deutan, 0.1});
    CHECK(deutan.size() == 1);
    CHECK(mild.empty());
}

TEST_CASE("backstitch is minded only where it lies on bare ground") {
    chart::Chart chart = drawn({"AAAA....", "AAAA....", "AAAA....", "AAAA...."},
                               {{0xe8, 0xe0, 0xd0}, {0x24, 0x2c, 0x44}});
    chart.lines = {{2, 2, 6, 2, 1}, {2, 2, 2, 6, 1}}; // inside the block: two cells each
    const thread::ShadeCard card = wheelCard("w");
    const std::vector<const thread::ShadeCard*> cards{&card};
    const Stitched stitched{clothOf(kNavy), std::nullopt, {}};
    const auto lostWith = [&] {
        const auto subject = subjectBy(By::Colour, chart, cards);
        const auto contrasts = contrastsOf(*subject, subject->charted, stitched);
        REQUIRE(contrasts.size() == 2);
        CHECK(contrasts[1].verdict == Verdict::Vanishes);
        CHECK(contrasts[1].coverage == 1);
        return std::pair{isLost(subject->parts.parts[1], contrasts[1]), subject->parts.parts[1]};
    };
    CHECK_FALSE(lostWith().first);
    CHECK(lostWith().second.bareLineCells == 0);
    chart.lines.push_back(
        {8, 4, 16, 4, 1}); // out on the cloth: four cells, the first end at the block
    const auto [lost, part] = lostWith();
    CHECK(lost);
    CHECK_THAT(part.lineCells, WithinAbs(8, 1e-9));
    CHECK_THAT(part.bareLineCells, WithinAbs(4, 0.3));
}
