#include "drawing/detail/shapes.h"
#include "drawing/detail/symbol_set.h"

namespace otherskein::drawing::detail {

namespace {

/// One symbol in the four directions.
void addTurned(std::vector<Symbol>& symbols, const char* up, const char* right, const char* down,
               const char* left, const QPainterPath& shape) {
    symbols.push_back({up, shape});
    symbols.push_back({right, turned(shape, 1)});
    symbols.push_back({down, turned(shape, 2)});
    symbols.push_back({left, turned(shape, 3)});
}

QPainterPath square(double half) {
    return box(-half, -half, half, half);
}

QPainterPath diamond(double half) {
    return polygon({{0, -half}, {half, 0}, {0, half}, {-half, 0}});
}

QPainterPath halfDisc() {
    return disc(0, 0.48, 1) & box(-1, -1, 1, 0.48);
}

QPainterPath wedge() {
    // Higher than the middle of its box: by the middle of its weight it would hang low.
    return polygon({{0, -1.02}, {0.98, 0.68}, {-0.98, 0.68}});
}

QPainterPath openWedge() {
    return wedge() - polygon({{0, -0.44}, {0.52, 0.42}, {-0.52, 0.42}});
}

QPainterPath chevron(double y) {
    return band({{-0.92, y + 0.42}, {0, y - 0.5}, {0.92, y + 0.42}}, 0.4);
}

QPainterPath arrow() {
    return polygon({{0, -1},
                    {0.82, -0.08},
                    {0.24, -0.08},
                    {0.24, 0.95},
                    {-0.24, 0.95},
                    {-0.24, -0.08},
                    {-0.82, -0.08}});
}

QPainterPath spokes(int lines, double width) {
    QPainterPath path;
    for (int i = 0; i < lines; ++i) {
        path = path + QTransform()
                          .rotate(90 + 180.0 * i / lines)
                          .map(box(-0.98, -width / 2, 0.98, width / 2));
    }
    return path;
}

QPainterPath waveLine(double y, double height, double width) {
    QPainterPath path({-0.86, y});
    path.cubicTo({-0.5, y - height}, {-0.3, y - height}, {0, y});
    path.cubicTo({0.3, y + height}, {0.5, y + height}, {0.86, y});
    return stroked(path, width);
}

void addRound(std::vector<Symbol>& symbols) {
    const QPainterPath ring = disc(0, 0, 0.98) - disc(0, 0, 0.72);
    symbols.push_back({"disc", disc(0, 0, 0.84)});
    symbols.push_back({"ring", disc(0, 0, 0.95) - disc(0, 0, 0.56)});
    symbols.push_back({"dot", disc(0, 0, 0.42)});
    symbols.push_back({"dotted ring", ring + disc(0, 0, 0.4)});
    symbols.push_back({"wheel", ring + box(-0.9, -0.16, 0.9, 0.16) + box(-0.16, -0.9, 0.16, 0.9)});
    addTurned(symbols, "upper half disc", "right half disc", "lower half disc", "left half disc",
              halfDisc());
    addTurned(symbols, "ring filled above", "ring filled right", "ring filled below",
              "ring filled left", ring + (disc(0, 0, 0.9) & box(-1, -1, 1, 0)));
    symbols.push_back({"right moon", disc(-0.34, 0, 0.98) - disc(-0.9, 0, 0.88)});
    symbols.push_back({"left moon", disc(0.34, 0, 0.98) - disc(0.9, 0, 0.88)});
}

void addSquare(std::vector<Symbol>& symbols) {
    const QPainterPath frame = square(0.92) - square(0.66);
    symbols.push_back({"block", square(0.9)});
    symbols.push_back({"frame", square(0.88) - square(0.5)});
    symbols.push_back({"dotted frame", frame + square(0.3)});
    addTurned(symbols, "frame filled above", "frame filled right", "frame filled below",
              "frame filled left", frame + box(-0.8, -0.8, 0.8, 0));
    symbols.push_back({"falling checks", box(-0.88, -0.88, 0, 0) + box(0, 0, 0.88, 0.88)});
    symbols.push_back({"rising checks", box(0, -0.88, 0.88, 0) + box(-0.88, 0, 0, 0.88)});
    symbols.push_back({"diamond", polygon({{0, -1.08}, {0.74, 0}, {0, 1.08}, {-0.74, 0}})});
    symbols.push_back({"open diamond", diamond(1.08) - diamond(0.56)});
    symbols.push_back({"dotted diamond", (diamond(1.12) - diamond(0.78)) + disc(0, 0, 0.3)});
    addTurned(symbols, "lower right corner", "lower left corner", "upper left corner",
              "upper right corner", polygon({{0.85, -0.85}, {0.85, 0.85}, {-0.85, 0.85}}));
}

void addWedges(std::vector<Symbol>& symbols) {
    addTurned(symbols, "up wedge", "right wedge", "down wedge", "left wedge", wedge());
    addTurned(symbols, "open up wedge", "open right wedge", "open down wedge", "open left wedge",
              openWedge());
    addTurned(symbols, "up chevron", "right chevron", "down chevron", "left chevron", chevron(0));
    addTurned(symbols, "two up chevrons", "two right chevrons", "two down chevrons",
              "two left chevrons", chevron(-0.32) + chevron(0.48));
    addTurned(symbols, "up arrow", "right arrow", "down arrow", "left arrow", arrow());
    const QPainterPath hourglass = polygon({{-0.85, -0.92}, {0.85, -0.92}, {0, 0.06}}) +
                                   polygon({{-0.85, 0.92}, {0.85, 0.92}, {0, -0.06}});
    symbols.push_back({"hourglass", hourglass});
    symbols.push_back({"bow tie", turned(hourglass, 1)});
}

void addBars(std::vector<Symbol>& symbols) {
    const QPainterPath upright = box(-0.25, -0.98, 0.25, 0.98);
    symbols.push_back({"upright bar", upright});
    symbols.push_back({"level bar", turned(upright, 1)});
    symbols.push_back({"rising bar", band({{-0.8, 0.8}, {0.8, -0.8}}, 0.46)});
    symbols.push_back({"falling bar", band({{-0.8, -0.8}, {0.8, 0.8}}, 0.46)});
    const QPainterPath two = box(-0.72, -0.92, -0.28, 0.92) + box(0.28, -0.92, 0.72, 0.92);
    symbols.push_back({"two upright bars", two});
    symbols.push_back({"two level bars", turned(two, 1)});
    const QPainterPath three =
        box(-0.92, -0.92, -0.6, 0.92) + box(-0.16, -0.92, 0.16, 0.92) + box(0.6, -0.92, 0.92, 0.92);
    symbols.push_back({"three upright bars", three});
    symbols.push_back({"three level bars", turned(three, 1)});
    const QPainterPath rising =
        band({{-0.98, 0.42}, {0.42, -0.98}}, 0.36) + band({{-0.42, 0.98}, {0.98, -0.42}}, 0.36);
    symbols.push_back({"two rising bars", rising});
    symbols.push_back({"two falling bars", mirrored(rising)});
    symbols.push_back({"upright cross", spokes(2, 0.44)});
    symbols.push_back({"crossing bars", band({{-0.82, -0.82}, {0.82, 0.82}}, 0.42) +
                                            band({{-0.82, 0.82}, {0.82, -0.82}}, 0.42)});
    symbols.push_back({"six spokes", spokes(3, 0.28)});
    symbols.push_back({"lattice", box(-0.56, -0.98, -0.26, 0.98) + box(0.26, -0.98, 0.56, 0.98) +
                                      box(-0.98, -0.56, 0.98, -0.26) +
                                      box(-0.98, 0.26, 0.98, 0.56)});
    symbols.push_back({"ladder", box(-0.72, -1, -0.42, 1) + box(0.42, -1, 0.72, 1) +
                                     box(-0.5, -0.62, 0.5, -0.36) + box(-0.5, -0.13, 0.5, 0.13) +
                                     box(-0.5, 0.36, 0.5, 0.62)});
    symbols.push_back({"wave", waveLine(0, 1.05, 0.38)});
    symbols.push_back({"two waves", waveLine(-0.5, 0.52, 0.3) + waveLine(0.5, 0.52, 0.3)});
    symbols.push_back({"steps", polygon({{0.3, -0.95},
                                         {0.92, -0.95},
                                         {0.92, 0.85},
                                         {-0.92, 0.85},
                                         {-0.92, 0.25},
                                         {-0.31, 0.25},
                                         {-0.31, -0.35},
                                         {0.3, -0.35}})});
}

void addDots(std::vector<Symbol>& symbols) {
    const QPainterPath across = disc(-0.56, 0, 0.38) + disc(0.56, 0, 0.38);
    symbols.push_back({"two dots across", across});
    symbols.push_back({"two dots upright", turned(across, 1)});
    const QPainterPath rising = disc(-0.5, 0.5, 0.38) + disc(0.5, -0.5, 0.38);
    symbols.push_back({"two dots rising", rising});
    symbols.push_back({"two dots falling", mirrored(rising)});
    symbols.push_back(
        {"three dots", disc(0, -0.5, 0.38) + disc(-0.56, 0.44, 0.38) + disc(0.56, 0.44, 0.38)});
    const QPainterPath four = disc(-0.56, -0.56, 0.36) + disc(0.56, -0.56, 0.36) +
                              disc(-0.56, 0.56, 0.36) + disc(0.56, 0.56, 0.36);
    symbols.push_back({"four dots", four});
    symbols.push_back(
        {"five dots", QTransform::fromScale(1.16, 1.16).map(four) + disc(0, 0, 0.36)});
    symbols.push_back({"star", moved(star(5, 1.08, 0.46), 0, 0.08)});
    symbols.push_back({"spark", star(4, 1.1, 0.34)});
}

} // namespace

std::vector<Symbol> plainSymbols() {
    std::vector<Symbol> symbols;
    addRound(symbols);
    addSquare(symbols);
    addWedges(symbols);
    addBars(symbols);
    addDots(symbols);
    return symbols;
}

} // namespace otherskein::drawing::detail
