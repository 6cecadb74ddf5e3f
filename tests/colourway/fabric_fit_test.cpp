#include "colourway/fabric_fit.h"

#include "colourway/coverage.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

thread::Ground fabricOf(int count, int over) {
    thread::Ground one;
    one.count = count;
    one.over = over;
    return one;
}

Extent inches(double width, double height) {
    return {width * kMmPerInch, height * kMmPerInch};
}

} // namespace

TEST_CASE("stitched sizes are those of published worked examples") {
    const reference::File table("stitched_sizes.csv");
    REQUIRE(table.rows().size() == 7);
    for (const auto& row : table.rows()) {
        CAPTURE(row.text("source").toStdString(), row.number("columns"));
        const Extent size = stitchedExtent(
            static_cast<int>(row.number("columns")), static_cast<int>(row.number("rows")),
            fabricOf(static_cast<int>(row.number("count")), static_cast<int>(row.number("over"))));
        // Half of the last digit that the page prints.
        const double half = 0.5 * std::pow(10, -row.number("decimals")) + 1e-9;
        CHECK_THAT(size.widthMm / kMmPerInch, WithinAbs(row.number("width_in"), half));
        CHECK_THAT(size.heightMm / kMmPerInch, WithinAbs(row.number("height_in"), half));
        if (!row.text("margin_in").isEmpty()) {
            const Extent needed = withMargin(size, row.number("margin_in") * kMmPerInch);
            CHECK_THAT(needed.widthMm / kMmPerInch, WithinAbs(row.number("needed_width_in"), half));
            CHECK_THAT(needed.heightMm / kMmPerInch,
                       WithinAbs(row.number("needed_height_in"), half));
        }
    }
}

TEST_CASE("an odd count over two is halved exactly") {
    // The sampler teacher of stitched_sizes.csv takes 17 stitches an inch for 35 count over two and
    // gets 3.94 × 5.00 in for 67 × 85; cut to that, the cloth is a little large, never too small.
    const Extent size = stitchedExtent(67, 85, fabricOf(35, 2));
    CHECK_THAT(size.widthMm / kMmPerInch, WithinAbs(67 / 17.5, 1e-9));
    CHECK(size.widthMm / kMmPerInch < 3.94);
    CHECK(size.heightMm / kMmPerInch < 5.00);
}

TEST_CASE("a piece is large enough as it lies, turned, or not at all") {
    CHECK(fitOf(inches(18, 27), kFatQuarter).fit == Fit::Fits); // to the last thread
    CHECK(fitOf(inches(15.9 + 6, 16.2 + 6), kFatQuarter).fit == Fit::TooSmall);
    CHECK(fitOf(inches(26, 12), kFatQuarter).fit == Fit::FitsTurned);
    const FitAnswer small = fitOf(inches(19, 27), kFatQuarter);
    CHECK(small.fit == Fit::TooSmall);
    CHECK_THAT(small.lacksWidthMm, WithinAbs(25.4, 1e-6));
    CHECK_THAT(small.lacksHeightMm, WithinAbs(0, 1e-6));
    CHECK_FALSE(small.turned);
    // Turned it lacks less: 28 wide on 27, instead of 28 on 18.
    const FitAnswer turned = fitOf(inches(28, 17), kFatQuarter);
    CHECK_THAT(turned.lacksWidthMm, WithinAbs(25.4, 1e-6));
    CHECK_THAT(turned.lacksHeightMm, WithinAbs(0, 1e-6));
    CHECK(turned.turned);
}

TEST_CASE("one count coarser than the coarsest that covers or fits would not do") {
    for (const int over : {1, 2}) {
        for (const int strands : {1, 2, 3}) {
            const auto covers = coarsestThatCovers(over, strands, kPlyWidthMm, kCovers);
            REQUIRE(covers);
            CAPTURE(over, strands, *covers);
            CHECK(coverage(fabricOf(*covers, over), strands) >= kCovers);
            CHECK(coverage(fabricOf(*covers - 1, over), strands) < kCovers);
            const auto uncrowded = finestUncrowded(over, strands, kPlyWidthMm);
            REQUIRE(uncrowded);
            CHECK(*uncrowded >= *covers);
        }
        const auto fits = coarsestThatFits(255, 259, over, kUsualMarginMm, kFatQuarter);
        REQUIRE(fits);
        const auto needs = [&](int count) {
            return withMargin(stitchedExtent(255, 259, fabricOf(count, over)), kUsualMarginMm);
        };
        CHECK(fitOf(needs(*fits), kFatQuarter).fit != Fit::TooSmall);
        CHECK(fitOf(needs(*fits - 1), kFatQuarter).fit == Fit::TooSmall);
    }
    // Worked by hand: 2 strands cover 0.95 where √2·0.8/s ≥ 1 − √0.05, s ≤ 1.457 mm: 35 over 2.
    CHECK(coarsestThatCovers(2, 2, 0.4, 0.95) == 35);
    CHECK_FALSE(coarsestThatFits(2000, 2000, 2, kUsualMarginMm, inches(7, 7)));
    CHECK_FALSE(coarsestThatCovers(2, 1, 0.05, 0.95));
}
