#include "drawing/detail/shapes.h"
#include "drawing/detail/symbol_set.h"

namespace otherskein::drawing::detail {

namespace {

QPainterPath drop() {
    QPainterPath path({0, -1.05});
    path.cubicTo({0.3, -0.45}, {0.74, -0.1}, {0.74, 0.35});
    path.cubicTo({0.74, 1.2}, {-0.74, 1.2}, {-0.74, 0.35});
    path.cubicTo({-0.74, -0.1}, {-0.3, -0.45}, {0, -1.05});
    return enlarged(path);
}

QPainterPath heart() {
    QPainterPath path({0, 0.98});
    path.cubicTo({-0.5, 0.5}, {-1.02, 0.15}, {-1.02, -0.38});
    path.cubicTo({-1.02, -1}, {-0.2, -1.05}, {0, -0.42});
    path.cubicTo({0.2, -1.05}, {1.02, -1}, {1.02, -0.38});
    path.cubicTo({1.02, 0.15}, {0.5, 0.5}, {0, 0.98});
    return enlarged(path);
}

QPainterPath leaf() {
    QPainterPath path({-0.86, 0.86});
    path.cubicTo({-1, -0.35}, {-0.2, -0.92}, {0.92, -0.92});
    path.cubicTo({0.92, 0.2}, {0.35, 1}, {-0.86, 0.86});
    return enlarged(path) - band({{-1, 1}, {0.3, -0.3}}, 0.22);
}

QPainterPath fish() {
    QPainterPath body({-0.98, 0});
    body.cubicTo({-0.5, -0.85}, {0.15, -0.75}, {0.55, 0});
    body.cubicTo({0.15, 0.75}, {-0.5, 0.85}, {-0.98, 0});
    return (enlarged(body) + polygon({{0.3, 0}, {0.98, -0.62}, {0.98, 0.62}})) -
           disc(-0.44, -0.1, 0.17);
}

QPainterPath pine() {
    return polygon({{0, -1.05}, {0.56, -0.22}, {-0.56, -0.22}}) +
           polygon({{0, -0.6}, {0.86, 0.56}, {-0.86, 0.56}}) + box(-0.18, 0.5, 0.18, 1);
}

QPainterPath anchor() {
    QPainterPath hook;
    hook.arcMoveTo(-0.72, -0.62, 1.44, 1.44, 200);
    hook.arcTo(-0.72, -0.62, 1.44, 1.44, 200, 140);
    return (disc(0, -0.72, 0.34) - disc(0, -0.72, 0.1)) + box(-0.14, -0.5, 0.14, 0.9) +
           box(-0.46, -0.36, 0.46, -0.12) + stroked(hook, 0.28);
}

QPainterPath sail() {
    const QPainterPath boat = polygon({{0.06, -1}, {0.06, 0.42}, {0.9, 0.42}}) +
                              polygon({{-0.14, -0.62}, {-0.14, 0.42}, {-0.72, 0.42}}) +
                              polygon({{-0.95, 0.58}, {0.95, 0.58}, {0.62, 0.98}, {-0.62, 0.98}});
    return moved(boat, -0.04, -0.08);
}

QPainterPath kite() {
    return polygon({{0.98, -0.98}, {0.5, 0.36}, {-0.36, 0.36}, {-0.36, -0.5}}) +
           band({{-0.3, 0.3}, {-0.98, 0.98}}, 0.26) + band({{-0.86, 0.4}, {-0.3, 0.96}}, 0.26);
}

QPainterPath house() {
    return (polygon({{0, -1},
                     {1, -0.12},
                     {0.74, -0.12},
                     {0.74, 0.92},
                     {-0.74, 0.92},
                     {-0.74, -0.12},
                     {-1, -0.12}}) -
            box(-0.24, 0.24, 0.24, 0.95));
}

QPainterPath mushroom() {
    return (disc(0, 0.1, 0.98) & box(-1, -1, 1, 0.1)) + box(-0.26, 0, 0.26, 0.92);
}

QPainterPath umbrella() {
    QPainterPath handle({0, 0});
    handle.lineTo(0, 0.72);
    handle.arcTo(QRectF(0, 0.5, 0.44, 0.42), 180, 150);
    return ((disc(0, 0.04, 0.98) & box(-1, -1, 1, 0.04)) - disc(-0.5, 0.06, 0.24) -
            disc(0.5, 0.06, 0.24)) +
           stroked(handle, 0.24);
}

QPainterPath clover() {
    return disc(0, -0.5, 0.44) + disc(-0.52, 0.18, 0.44) + disc(0.52, 0.18, 0.44) +
           polygon({{-0.1, 0}, {0.1, 0}, {0.28, 1}, {-0.28, 1}});
}

QPainterPath flower() {
    QPainterPath path;
    for (int i = 0; i < 5; ++i) {
        path = path + QTransform().rotate(72.0 * i).map(disc(0, -0.62, 0.4));
    }
    return (path + disc(0, 0, 0.5)) - disc(0, 0, 0.26);
}

QPainterPath sun() {
    QPainterPath path = disc(0, 0, 0.48);
    for (int i = 0; i < 8; ++i) {
        path = path + QTransform().rotate(45.0 * i).map(box(-0.13, -1.06, 0.13, -0.68));
    }
    return path;
}

QPainterPath key() {
    return (disc(-0.52, 0, 0.48) - disc(-0.52, 0, 0.18)) + box(-0.1, -0.14, 1, 0.14) +
           box(0.7, 0, 0.98, 0.5) + box(0.3, 0, 0.54, 0.4);
}

QPainterPath spool() {
    return box(-0.82, -0.95, 0.82, -0.62) + box(-0.82, 0.62, 0.82, 0.95) +
           box(-0.5, -0.46, 0.5, -0.18) + box(-0.5, -0.03, 0.5, 0.18) + box(-0.5, 0.32, 0.5, 0.5) +
           box(-0.3, -0.7, 0.3, 0.7);
}

QPainterPath tower() {
    return box(-0.86, -0.92, -0.44, -0.2) + box(-0.21, -0.92, 0.21, -0.2) +
           box(0.44, -0.92, 0.86, -0.2) + box(-0.86, -0.5, 0.86, -0.12) +
           box(-0.6, -0.2, 0.6, 0.92);
}

QPainterPath crown() {
    return polygon({{-0.95, -0.7},
                    {-0.45, -0.06},
                    {0, -0.94},
                    {0.45, -0.06},
                    {0.95, -0.7},
                    {0.76, 0.74},
                    {-0.76, 0.74}});
}

QPainterPath bolt() {
    return polygon(
        {{0.3, -1.05}, {-0.72, 0.2}, {-0.1, 0.2}, {-0.34, 1.05}, {0.72, -0.28}, {0.08, -0.28}});
}

QPainterPath pennant() {
    return box(-0.76, -0.98, -0.46, 0.98) + polygon({{-0.5, -0.9}, {1.02, -0.25}, {-0.5, 0.4}});
}

QPainterPath tulip() {
    QPainterPath cup({-0.66, -0.95});
    cup.lineTo(-0.24, -0.5);
    cup.lineTo(0, -0.98);
    cup.lineTo(0.24, -0.5);
    cup.lineTo(0.66, -0.95);
    cup.cubicTo({0.9, 0.1}, {0.4, 0.3}, {0, 0.3});
    cup.cubicTo({-0.4, 0.3}, {-0.9, 0.1}, {-0.66, -0.95});
    return enlarged(cup) + box(-0.13, 0.2, 0.13, 1) +
           polygon({{0, 0.95}, {0.72, 0.35}, {0.5, 0.9}});
}

QPainterPath comb() {
    return box(-0.95, -0.8, 0.95, -0.36) + box(-0.95, -0.5, -0.68, 0.8) +
           box(-0.41, -0.5, -0.14, 0.8) + box(0.14, -0.5, 0.41, 0.8) + box(0.68, -0.5, 0.95, 0.8);
}

QPainterPath peaks() {
    return polygon({{-1.02, 0.66}, {-0.36, -0.86}, {0.06, 0.02}, {0.4, -0.5}, {1.02, 0.66}});
}

QPainterPath cherries() {
    return disc(-0.5, 0.5, 0.42) + disc(0.52, 0.5, 0.42) +
           band({{-0.45, 0.3}, {0.24, -1}, {0.52, 0.3}}, 0.22);
}

} // namespace

std::vector<Symbol> thingSymbols() {
    const QPainterPath keyhole =
        disc(0, -0.4, 0.56) + polygon({{-0.18, -0.2}, {0.18, -0.2}, {0.56, 1}, {-0.56, 1}});
    return {{"sail", sail()},        {"pine", pine()},         {"drop", drop()},
            {"heart", heart()},      {"key-hole", keyhole},    {"anchor", anchor()},
            {"kite", kite()},        {"leaf", leaf()},         {"fish", fish()},
            {"house", house()},      {"mushroom", mushroom()}, {"umbrella", umbrella()},
            {"clover", clover()},    {"flower", flower()},     {"sun", sun()},
            {"key", key()},          {"spool", spool()},       {"tower", tower()},
            {"crown", crown()},      {"bolt", bolt()},         {"pennant", pennant()},
            {"tulip", tulip()},      {"comb", comb()},         {"peaks", peaks()},
            {"cherries", cherries()}};
}

} // namespace otherskein::drawing::detail
