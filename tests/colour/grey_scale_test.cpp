#include "colour/grey_scale.h"

#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

using namespace otherskein;
using namespace otherskein::colour;

namespace {

/// Half a step between two ratings counts as .5: "3-4" is 3.5.
double rating(const QString& step) {
    static const std::map<std::string, double> kRatings{{"5", 5.0},   {"4-5", 4.5}, {"4", 4.0},
                                                        {"3-4", 3.5}, {"3", 3.0},   {"2-3", 2.5},
                                                        {"2", 2.0},   {"1-2", 1.5}, {"1", 1.0}};
    return kRatings.at(step.toStdString());
}

/// ISO 105-A05 section 8, the rating as a number without steps.
double continuousRating(double difference) {
    return difference <= 3.4 ? 5 - difference / 1.7
                             : std::max(1.0, 5 - std::log2(difference / 0.85));
}

} // namespace

TEST_CASE("the nine pairs of the grey scale get their own step") {
    const reference::File table("iso_105_a02_table.csv");
    REQUIRE(table.rows().size() == 9);
    for (const reference::Row& row : table.rows()) {
        CAPTURE(row.number("deltaEab"));
        CHECK(greyScaleStep(row.number("deltaEab")).toStdString() ==
              row.text("step").toStdString());
    }
}

TEST_CASE("half way between two steps counts as the worse one") {
    const reference::File table("iso_105_a05_borders.csv");
    REQUIRE(table.rows().size() == 8);
    for (const reference::Row& row : table.rows()) {
        const double border = row.number("border");
        CAPTURE(border);
        CHECK(greyScaleStep(border - 1e-6).toStdString() == row.text("better").toStdString());
        CHECK(greyScaleStep(border).toStdString() == row.text("worse").toStdString());
        CHECK(greyScaleStep(border + 1e-6).toStdString() == row.text("worse").toStdString());
    }
}

TEST_CASE("steps follow the rating formula of ISO 105-A05") {
    // Steps are half a rating wide, so the formula differs from them by a quarter, and by up to
    // 0.04 more where the borders are middles of the table and not of the curve.
    for (int i = 0; i <= 2000; ++i) {
        const double difference = i / 100.0;
        CAPTURE(difference);
        CHECK(std::abs(rating(greyScaleStep(difference)) - continuousRating(difference)) <= 0.29);
    }
}

TEST_CASE("a difference beyond the scale is step 1") {
    CHECK(greyScaleStep(200).toStdString() == "1");
}
