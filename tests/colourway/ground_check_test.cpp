#include "colourway/ground_check.h"

#include "samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using Catch::Matchers::WithinAbs;

namespace {

thread::Ground groundOf(const colour::Lab& lab, int count, int over) {
    thread::Ground ground;
    ground.lab = lab;
    ground.count = count;
    ground.over = over;
    return ground;
}

} // namespace

TEST_CASE("a grey thread on white has the values worked by hand") {
    // 14 over 1, 2 strands: s = 25.4/14 = 1.814286 mm, sqrt2 * 2 * 0.4 / s = 0.623589,
    //   coverage 1 - 0.376411^2 = 0.858316.
    // Y of L* 50: (66/116)^3 = 0.184187. Apparent Y: 0.858316 * 0.184187 + 0.141684 * 1 = 0.299774,
    //   L* = 116 * 0.299774^(1/3) - 16 = 61.63476, so dL = -38.36524.
    // CIEDE2000 of two greys is dL/SL: mean L* 80.81738, (30.81738)^2 = 949.711,
    //   SL = 1 + 0.015 * 949.711 / sqrt(969.711) = 1.457465; 38.36524 / 1.457465 = 26.3232.
    // Ratio: (1 + 0.05) / (0.299774 + 0.05) = 3.00193.
    const std::vector threads{pooledOf("quay", threadOf("Q-1", {50, 0, 0}))};
    const auto judged = checkGround(threads, groundOf({100, 0, 0}, 14, 1), 2);
    REQUIRE(judged.size() == 1);
    CHECK(judged[0].thread.thread.code.toStdString() == "Q-1");
    CHECK_THAT(judged[0].coverage, WithinAbs(0.858316, 5e-7));
    CHECK_THAT(judged[0].apparent.L, WithinAbs(61.63476, 5e-5));
    CHECK_THAT(judged[0].apparent.a, WithinAbs(0, 1e-9));
    CHECK_THAT(judged[0].dL, WithinAbs(-38.36524, 5e-5));
    CHECK_THAT(judged[0].de00, WithinAbs(26.3232, 5e-5));
    CHECK_THAT(judged[0].ratio, WithinAbs(3.00193, 5e-5));
    CHECK(judged[0].verdict == Verdict::Clear);
}

TEST_CASE("a thread of the ground's own colour vanishes") {
    const std::vector threads{pooledOf("quay", threadOf("Q-1", {40, 10, -20}))};
    const auto judged = checkGround(threads, groundOf({40, 10, -20}, 36, 2), 1);
    CHECK_THAT(judged.at(0).de00, WithinAbs(0, 1e-9));
    CHECK_THAT(judged.at(0).dL, WithinAbs(0, 1e-9));
    CHECK_THAT(judged.at(0).ratio, WithinAbs(1, 1e-9));
    CHECK(judged.at(0).verdict == Verdict::Vanishes);
}

TEST_CASE("full coverage shows the thread alone") {
    const std::vector threads{pooledOf("quay", threadOf("Q-1", {30, 40, 20}))};
    const auto judged = checkGround(threads, groundOf({90, 0, 5}, 36, 1), 2);
    CHECK_THAT(judged.at(0).apparent.L, WithinAbs(30, 1e-9));
    CHECK_THAT(judged.at(0).apparent.a, WithinAbs(40, 1e-9));
    CHECK_THAT(judged.at(0).apparent.b, WithinAbs(20, 1e-9));
}

TEST_CASE("a thinner needle shows less on the ground") {
    const std::vector threads{pooledOf("quay", threadOf("Q-1", {30, 0, 0}))};
    const thread::Ground ground = groundOf({80, 0, 0}, 14, 1);
    double before = 0;
    for (int strands = 1; strands <= 4; ++strands) {
        const double now = checkGround(threads, ground, strands).at(0).de00;
        CHECK(now > before);
        before = now;
    }
}

TEST_CASE("threads come by least contrast then card then code") {
    const std::vector threads{
        pooledOf("b", threadOf("1", {30, 0, 0})), pooledOf("a", threadOf("2", {30, 0, 0})),
        pooledOf("a", threadOf("1", {30, 0, 0})), pooledOf("a", threadOf("9", {60, 0, 0})),
        pooledOf("a", threadOf("0", {10, 0, 0}))};
    std::string order;
    for (const OnGround& one : checkGround(threads, groundOf({70, 0, 0}, 14, 1), 2)) {
        order += (one.thread.card + one.thread.thread.code).toStdString() + ' ';
    }
    CHECK(order == "a9 a1 a2 b1 a0 ");
    CHECK(checkGround({}, groundOf({70, 0, 0}, 14, 1), 2).empty());
}

TEST_CASE("verdicts change exactly at their limits") {
    CHECK(verdictOf(0) == Verdict::Vanishes);
    CHECK(verdictOf(7.999999) == Verdict::Vanishes);
    CHECK(verdictOf(8) == Verdict::Soft);
    CHECK(verdictOf(15.999999) == Verdict::Soft);
    CHECK(verdictOf(16) == Verdict::Clear);
    CHECK(wordOf(Verdict::Vanishes).toStdString() == "vanishes");
    CHECK(wordOf(Verdict::Soft).toStdString() == "soft");
    CHECK(wordOf(Verdict::Clear).toStdString() == "clear");
}
