#include <catch2/catch.hpp>

#include "drawing/samples.h"

using namespace otherskein;
using namespace otherskein::drawing;

TEST_CASE("zooming keeps the point under the pointer") {
    const View view = viewOf(7.3, {-113.5, 41.25});
    for (const double cell : {0.1, 0.77, 3.0, 12.6, 96.0}) {
        const QPointF pointer(77.5, 33);
        const View next = zoomed(view, cell, pointer);
        CHECK(next.cell == cell);
        CHECK_THAT(toCells(next, pointer).x(), Catch::WithinAbs(toCells(view, pointer).x(), 1e-9));
        CHECK_THAT(toCells(next, pointer).y(), Catch::WithinAbs(toCells(view, pointer).y(), 1e-9));
    }
}

TEST_CASE("zooming stops at its ends without moving what is under the pointer") {
    const View view = viewOf(50, {10, 10});
    CHECK(zoomed(view, 1e6, {60, 60}).cell == kMostCell);
    CHECK(zoomed(view, 0, {60, 60}).cell == kLeastCell);
    CHECK_THAT(toCells(zoomed(view, 1e6, {60, 60}), {60, 60}).x(), Catch::WithinAbs(1, 1e-9));
}

TEST_CASE("a fitted chart is whole, centred and as large as its margin lets it") {
    const chart::Grid grid(80, 20);
    const View view = fitted(grid, {240, 160}, 16);
    CHECK_THAT(view.cell, Catch::WithinAbs((240 - 32) / 80.0, 1e-12));
    const QPointF middle = fromCells(view, {40, 10});
    CHECK_THAT(middle.x(), Catch::WithinAbs(120, 1e-9));
    CHECK_THAT(middle.y(), Catch::WithinAbs(80, 1e-9));
    CHECK(fitted(chart::Grid(), {240, 160}).cell == kMostCell);
    CHECK(fitted(chart::Grid(2000, 2000), {30, 30}).cell == kLeastCell);
}

TEST_CASE("cells and widget points lead back to each other") {
    const View view = viewOf(3.7, {-20, 11});
    const QPointF point(101.25, 60.5);
    CHECK_THAT(fromCells(view, toCells(view, point)).x(), Catch::WithinAbs(point.x(), 1e-9));
    CHECK_THAT(fromCells(view, toCells(view, point)).y(), Catch::WithinAbs(point.y(), 1e-9));
}
