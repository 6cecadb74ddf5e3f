#include "colour/lab.h"

#include <catch2/catch.hpp>

using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;

TEST_CASE("chroma is the distance from grey") {
    CHECK_THAT(chroma({50, 3, -4}), WithinAbs(5, 1e-12));
    CHECK(chroma({50, 0, 0}) == 0);
}

TEST_CASE("hue runs anticlockwise from the red axis") {
    CHECK(hueDegrees({50, 10, 0}) == 0);
    CHECK_THAT(hueDegrees({50, 10, 10}), WithinAbs(45, 1e-12));
    CHECK_THAT(hueDegrees({50, 0, 10}), WithinAbs(90, 1e-12));
    CHECK_THAT(hueDegrees({50, -10, 0}), WithinAbs(180, 1e-12));
    CHECK_THAT(hueDegrees({50, 0, -10}), WithinAbs(270, 1e-12));
    CHECK_THAT(hueDegrees({50, 10, -10}), WithinAbs(315, 1e-12));
}

TEST_CASE("a neutral has hue 0") {
    CHECK(hueDegrees({50, 0, 0}) == 0);
    CHECK(hueDegrees({50, -0.0, -0.0}) == 0);
    CHECK(hueDegrees({50, -0.0, 0}) == 0);
}

TEST_CASE("hue stays below 360 degrees even a hair under the red axis") {
    for (const double b : {-1e-3, -1e-13, -1e-15, -1e-18, -1e-300}) {
        CAPTURE(b);
        const double hue = hueDegrees({50, 40, b});
        CHECK(hue >= 0);
        CHECK(hue < 360);
    }
}
