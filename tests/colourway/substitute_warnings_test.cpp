// Warnings that come from the threads themselves; those of the key have their own file.
#include "colourway/substitute_warnings.h"

#include "warning_samples.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;
using thread::Finish;
using thread::Stock;
using thread::Thread;

namespace {

constexpr colour::Lab kLab{50, 20, 10};
constexpr colour::Lab kNear{52, 20, 10};

Thread finished(Finish finish, const char* code = "C") {
    Thread one = threadOf(code, kNear);
    one.finish = finish;
    return one;
}

SubstituteQuestion wantedFinish(Finish finish) {
    return questionOf("card", [finish] {
        Thread one = threadOf("W", kLab);
        one.finish = finish;
        return one;
    }());
}

} // namespace

TEST_CASE("a plain thread is warned of nothing") {
    CHECK(
        warned(candidateOf(threadOf("C", kNear)), questionOf("card", threadOf("W", kLab))).empty());
    CHECK(warned(candidateOf(threadOf("C", kNear)), questionOf(kLab)).empty());
}

TEST_CASE("every pair of finishes is warned of as it should be") {
    constexpr std::array kAll{Finish::Unstated, Finish::Matt, Finish::Satin, Finish::Metallic,
                              Finish::Variegated};
    // Rows: the wanted finish. Columns: the candidate's, in the order above.
    const std::array<std::array<const char*, 5>, 5> expected{
        {{"", "", "", "metallic", "variegated"},
         {"", "", "other-finish", "metallic", "variegated"},
         {"", "other-finish", "", "metallic", "variegated"},
         {"", "other-finish", "other-finish", "", "other-finish"},
         {"", "other-finish", "other-finish", "other-finish", ""}}};
    for (std::size_t i = 0; i < kAll.size(); ++i) {
        for (std::size_t j = 0; j < kAll.size(); ++j) {
            CAPTURE(i, j);
            CHECK(warned(candidateOf(finished(kAll[j])), wantedFinish(kAll[i])) == expected[i][j]);
        }
    }
}

TEST_CASE("a metallic or variegated thread is never silently offered for a bare colour") {
    CHECK(warned(candidateOf(finished(Finish::Metallic)), questionOf(kLab)) == "metallic");
    CHECK(warned(candidateOf(finished(Finish::Variegated)), questionOf(kLab)) == "variegated");
    CHECK(warned(candidateOf(finished(Finish::Satin)), questionOf(kLab)).empty());
}

TEST_CASE("a metallic or variegated thread inside a blend is warned of in either place") {
    const Thread plain = finished(Finish::Matt, "P");
    for (const auto& [finish, name] :
         {std::pair{Finish::Metallic, "metallic"}, {Finish::Variegated, "variegated"}}) {
        for (const SubstituteQuestion& question : {wantedFinish(Finish::Matt), questionOf(kLab)}) {
            CHECK(warned(blendOf(finished(finish), 1, plain, 1), question) == name);
            CHECK(warned(blendOf(plain, 2, finished(finish), 1), question) == name);
        }
    }
    CHECK(warned(blendOf(finished(Finish::Metallic), 1, finished(Finish::Variegated, "D"), 1),
                 questionOf(kLab)) == "metallic variegated");
}

TEST_CASE("another fibre is warned of unless one of the two is not known") {
    const auto ask = [](const char* wanted, const char* other) {
        Thread one = threadOf("W", kLab);
        one.fibre = QString::fromLatin1(wanted);
        Thread two = threadOf("C", kNear);
        two.fibre = QString::fromLatin1(other);
        return warned(candidateOf(two), questionOf("card", one));
    };
    CHECK(ask("cotton", "silk") == "other-fibre");
    CHECK(ask("cotton", "Cotton").empty());
    CHECK(ask("", "silk").empty());
    CHECK(ask("cotton", "").empty());
}

TEST_CASE("another number of plies is warned of") {
    Thread two = threadOf("C", kNear);
    two.strands = 4;
    CHECK(warned(candidateOf(two), questionOf("card", threadOf("W", kLab))) == "other-strands");
    CHECK(warned(candidateOf(two), questionOf(kLab)).empty()); // nobody knows the wanted plies
}

TEST_CASE("what is out or discontinued is warned of unless it is in the drawer") {
    for (const auto& [stock, name] : {std::pair{Stock::Unstated, ""},
                                      {Stock::In, ""},
                                      {Stock::Out, "out-of-stock"},
                                      {Stock::Discontinued, "discontinued"}}) {
        Thread one = threadOf("C", kNear);
        one.stock = stock;
        CHECK(warned(candidateOf(one), questionOf(kLab)) == name);
        CHECK(warned(blendOf(threadOf("D", kNear), 1, one, 1), questionOf(kLab)) == name);
        one.stash = 0.1;
        CHECK(warned(candidateOf(one), questionOf(kLab)).empty());
    }
}

TEST_CASE("a blend is called speckled only past its limit") {
    // Two greys about the middle: ΔE00 = ΔL*/SL, SL = 1 + 0.015 * m^2 / sqrt(20 + m^2), m the
    // mean L* - 50 = 0 here, so ΔE00 is ΔL* itself.
    const auto apart = [](double dL) {
        return warned(
            blendOf(threadOf("C", {50 - dL / 2, 0, 0}), 1, threadOf("D", {50 + dL / 2, 0, 0}), 1),
            questionOf({80, 0, 0}));
    };
    CHECK(apart(11.999).empty());
    CHECK(apart(12.001) == "speckled");
}

TEST_CASE("speckle does not depend on the weights of the question") {
    SubstituteQuestion question = questionOf({80, 0, 0});
    question.weights = colour::kTextileWeights; // would halve a difference in lightness
    CHECK(warned(blendOf(threadOf("C", {42, 0, 0}), 1, threadOf("D", {58, 0, 0}), 1), question) ==
          "speckled");
}

TEST_CASE("a difference within the readings' own spread is as good as none") {
    // Both about the middle, so ΔE00 is ΔL*. Spreads 0.3 and 0.4 add to 0.5 as squares.
    const auto ask = [](double dL) {
        Thread wanted = threadOf("W", {50 - dL / 2, 0, 0});
        wanted.spread = 0.3;
        Thread other = threadOf("C", {50 + dL / 2, 0, 0});
        other.spread = 0.4;
        return warned(candidateOf(other), questionOf("card", wanted));
    };
    CHECK(ask(0.499) == "within-spread");
    CHECK(ask(0.501).empty());
}

TEST_CASE("one known spread counts and none at all says nothing") {
    Thread other = threadOf("C", {50.2, 0, 0});
    CHECK(warned(candidateOf(other), questionOf({50, 0, 0})).empty());
    other.spread = 0.25;
    CHECK(warned(candidateOf(other), questionOf({50, 0, 0})) == "within-spread");
    other.spread = 0;
    other.lab.L = 50;
    CHECK(warned(candidateOf(other), questionOf({50, 0, 0})).empty());
}

TEST_CASE("the spreads of a blend count by their share of the strands") {
    // 2 + 1 strands with spreads 0.6 and 0.9: sqrt((2/3*0.6)^2 + (1/3*0.9)^2) = 0.5.
    const auto ask = [](double dL) {
        Thread one = threadOf("C", {50, 0, 0});
        one.spread = 0.6;
        Thread other = threadOf("D", {50, 0, 0});
        other.spread = 0.9;
        return warned(blendOf(one, 2, other, 1), questionOf({50 + dL, 0, 0}));
    };
    CHECK(ask(0.499) == "within-spread");
    CHECK(ask(0.501).empty());
}

TEST_CASE("a variegated thread is never called as good as equal") {
    // The spread of its readings is the run of its colours, not a doubt about one.
    Thread run = finished(Finish::Variegated);
    run.spread = 9;
    CHECK(warned(candidateOf(run), questionOf(kLab)) == "variegated");
    CHECK(warned(blendOf(threadOf("D", kNear), 1, run, 1), questionOf(kLab)) == "variegated");
    Thread wanted = threadOf("W", kLab);
    wanted.finish = Finish::Variegated;
    wanted.spread = 9;
    CHECK(warned(candidateOf(threadOf("D", kNear)), questionOf("card", wanted)).empty());
}

TEST_CASE("warnings reach the ranked list") {
    Thread shiny = finished(Finish::Metallic);
    shiny.stock = Stock::Out;
    const auto found = findSubstitutes(questionOf(kLab), *poolOf({cardOf("a", {shiny})}, {}));
    REQUIRE(found.size() == 1);
    REQUIRE(found[0].warnings.size() == 2);
    CHECK(found[0].warnings[0].text.toStdString() ==
          "C is metallic: its colour shifts with the light");
    CHECK(found[0].warnings[1].text.toStdString() == "C is out of stock");
}
