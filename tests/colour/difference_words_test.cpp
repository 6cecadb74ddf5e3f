#include "colour/difference_words.h"

#include "colour/difference.h"
#include "random_lab.h"

#include <catch2/catch.hpp>

#include <string>

using namespace otherskein::colour;

namespace {

struct Case {
    const char* who; ///< what a stitcher would call the two
    Lab wanted;
    Lab other;
    std::string words;
};

std::string words(const Lab& wanted, const Lab& other) {
    return differenceInWords(wanted, other).toStdString();
}

} // namespace

TEST_CASE("a difference reads as a stitcher would say it") {
    // Expected words are ours: a judgement and no published source.
    const auto sample = GENERATE(values<Case>({
        {"the same thread", {50, 20, 30}, {50, 20, 30}, "No visible difference"},
        {"another dye lot", {50, 20, 30}, {50.4, 20.3, 30.2}, "No visible difference"},
        {"mid grey, one shade up", {50, 0, 0}, {52, 0, 0}, "A touch lighter"},
        {"mid grey, two shades down", {50, 0, 0}, {46, 0, 0}, "A little darker"},
        {"charcoal for steel", {50, 0, 0}, {42, 0, 0}, "Clearly darker"},
        {"white for black", {0, 0, 0}, {100, 0, 0}, "Much lighter"},
        {"a dusty red for a clear one", {42, 69, 40}, {42, 55, 32}, "A little duller"},
        {"a clear red for a dusty one", {42, 55, 32}, {42, 69, 40}, "A little brighter"},
        {"royal for navy", {20, 6, -30}, {33, 16, -57}, "Much lighter and brighter"},
        {"navy for royal", {33, 16, -57}, {20, 6, -30}, "Much darker and duller"},
        {"deep rose for baby pink", {82, 20, 1}, {60, 47, 5}, "Much deeper"},
        {"baby pink for deep rose", {60, 47, 5}, {82, 20, 1}, "Much paler"},
        {"tangerine for scarlet", {42, 66, 38}, {44, 59, 49}, "Clearly more orange"},
        {"cherry for scarlet", {42, 66, 38}, {42, 69, 20}, "Clearly pinker"},
        {"salmon for rose", {66, 37, 6}, {67, 32, 24}, "Much redder"},
        {"olive for forest", {35, -24, 18}, {36, -6, 31}, "Much yellower"},
        {"forest for olive", {36, -6, 31}, {35, -24, 18}, "Much greener"},
        {"lime for lemon", {85, -5, 73}, {82, -24, 68}, "Much greener"},
        {"a redder brown", {34, 12, 22}, {34, 18, 21}, "A little redder"},
        {"a darker brown", {34, 12, 22}, {26, 10, 19}, "Clearly darker"},
        {"aqua for sky blue", {60, -5, -40}, {60, -33, -5}, "Much more turquoise"},
        {"plum for violet", {40, 29, -41}, {42, 41, -17}, "Much pinker"},
        {"blue for red", {42, 66, 38}, {31, 16, -57}, "Much bluer"},
        {"green for red", {42, 66, 38}, {50, -42, 38}, "Much greener"},
        {"violet for yellow", {80, 9, 74}, {38, 29, -41}, "Much more violet and darker"},
        {"a blue grey for a plain one", {54, 0, 0}, {55, -3, -7}, "Clearly bluer"},
        {"a plain grey for a blue one", {55, -3, -7}, {54, 0, 0}, "Clearly greyer"},
        {"a green grey for a pink one", {54, 6, 0}, {54, -4.6, 2}, "Much greener"},
        {"bright white for ecru", {93, 0, 10}, {100, 0, 0}, "Clearly whiter"},
        {"ecru for bright white", {100, 0, 0}, {93, 0, 10}, "Clearly yellower and darker"},
        {"black for navy", {20, 3, -18}, {12, 0, 0}, "Much blacker"},
        {"navy for black", {12, 0, 0}, {13, 6, -22}, "Much bluer"},
    }));
    CAPTURE(sample.who, deltaE00(sample.wanted, sample.other));
    CHECK(words(sample.wanted, sample.other) == sample.words);
}

TEST_CASE("words for the opposite direction are never the same words") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    int different = 0;
    for (int i = 0; i < 20'000; ++i) {
        Lab one = random.anywhere();
        one.a /= 2; // the colours that threads have
        one.b /= 2;
        const Lab other = random.near(one);
        if (deltaE00(one, other) < 1) {
            continue;
        }
        ++different;
        CAPTURE(i, one.L, one.a, one.b, other.L, other.a, other.b);
        REQUIRE(words(one, other) != words(other, one));
    }
    CHECK(different > 10'000);
}

TEST_CASE("a colour is invisible beside another below one unit and visible above") {
    // Between greys about L 50 the difference is that of lightness (SL = 1).
    CHECK(words({49.55, 0, 0}, {50.45, 0, 0}) == "No visible difference");
    CHECK(words({49.45, 0, 0}, {50.55, 0, 0}) == "A touch lighter");
}

TEST_CASE("a difference names no more than two parts") {
    RandomLab random;
    CAPTURE(RandomLab::kSeed);
    for (int i = 0; i < 20'000; ++i) {
        const Lab one = random.anywhere();
        const std::string said = words(one, random.anywhere());
        CAPTURE(i, said);
        const std::size_t first = said.find(" and ");
        REQUIRE((first == std::string::npos || said.find(" and ", first + 1) == std::string::npos));
        REQUIRE(said.back() != ' '); // no empty part
    }
}
