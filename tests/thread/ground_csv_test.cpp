#include "thread/ground_csv.h"

#include "colour/conversion.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::thread;
using Catch::Matchers::WithinAbs;
using fixtures::Fixture;

TEST_CASE("accepted grounds are written back as they should be") {
    const auto all = fixtures::fixturesIn("grounds/accepted");
    CHECK(all.size() >= 7);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        const auto grounds = parseGrounds(one.bytes, one.path);
        const QByteArray written = groundsCsv(grounds);
        CHECK(written.toStdString() == one.expected.toStdString());
        CHECK((parseGrounds(written, one.path) == grounds));
    }
}

TEST_CASE("refused grounds say what is wrong in one line") {
    const auto all = fixtures::fixturesIn("grounds/refused");
    CHECK(all.size() >= 16);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        CHECK(fixtures::refusal(one.path, [&] { (void)parseGrounds(one.bytes, one.path); }) +
                  '\n' ==
              one.expected.toStdString());
    }
}

TEST_CASE("a ground has the colour that was entered and usual counts") {
    const auto grounds =
        parseGrounds("name,srgb\nSlate linen,#303840\n", QStringLiteral("grounds.csv"));
    REQUIRE(grounds.size() == 1);
    CHECK((grounds[0].shown == colour::Srgb8{0x30, 0x38, 0x40}));
    CHECK((grounds[0].lab == colour::labFromSrgb(colour::Srgb8{0x30, 0x38, 0x40})));
    CHECK(grounds[0].count == 36);
    CHECK(grounds[0].over == 2);
}

TEST_CASE("a stitch's cell follows from count and over") {
    Ground ground;
    ground.count = 14;
    ground.over = 1;
    CHECK_THAT(cellSideMm(ground), WithinAbs(25.4 / 14, 1e-12)); // an inch is 25.4 mm
    ground.count = 36;
    ground.over = 2;
    CHECK_THAT(cellSideMm(ground), WithinAbs(25.4 / 18, 1e-12));
}
