#include "colourway/key_threads.h"

#include <catch2/catch.hpp>

using namespace otherskein;

namespace {

chart::KeyRow row(const QString& card, const QString& code) {
    chart::KeyRow made;
    made.card = card;
    made.code = code;
    made.lab = {10, 0, 0};
    return made;
}

thread::ShadeCard card(const QString& name, double L) {
    thread::Thread one;
    one.code = QStringLiteral("K-1");
    one.lab = {L, 0, 0};
    return {name, {one}, {}};
}

} // namespace

TEST_CASE("a key row takes the colour of its thread on the card that it names") {
    const thread::ShadeCard first = card(QStringLiteral("first"), 40);
    const thread::ShadeCard second = card(QStringLiteral("second"), 60);
    const std::vector<const thread::ShadeCard*> cards{&first, &second};
    const chart::Key key = colourway::withThreadColours(
        {row(QStringLiteral("second"), QStringLiteral("K-1")), row({}, QStringLiteral("K-1")),
         row(QStringLiteral("third"), QStringLiteral("K-1")),
         row(QStringLiteral("first"), QStringLiteral("K-9"))},
        cards);
    CHECK(key[0].lab.L == 60);
    CHECK(key[1].lab.L == 40); // no card named: the first that has the code
    CHECK(key[2].lab.L == 10); // not found: the pixel's own colour
    CHECK(key[3].lab.L == 10);
}
