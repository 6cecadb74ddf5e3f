#include "chart_samples.h"

#include <catch2/catch.hpp>

#include <map>
#include <set>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

struct Row {
    std::vector<thread::ShadeCard> cards{wheelCard("w")};
    RecolourQuestion question;
    std::shared_ptr<const Subject> subject;
    std::shared_ptr<const thread::ThreadPool> pool;

    explicit Row(int count = 9) {
        question.by = By::Motif;
        question.stashFirst = false;
        question.ground = thread::groundOfSrgb(QStringLiteral("linen"), {0xcd, 0xbf, 0xa6});
        subject = subjectBy(By::Motif, houses(count), {&cards[0]});
        pool = poolOf(cards, {});
    }
};

std::set<QString> codesOf(const Colourway& colourway) {
    std::set<QString> codes;
    for (const Choice& choice : colourway.now) {
        codes.insert(choice.code());
    }
    return codes;
}

} // namespace

TEST_CASE("a row of houses in one colour becomes a row in many") {
    const Row row;
    REQUIRE(row.subject->parts.parts.size() == 9);
    const Colourway many = *recolour(*row.subject, row.question, *row.pool);
    CHECK(codesOf(many).size() >= 5);
    REQUIRE(many.figures.leastBetweenNeighbours);
    CHECK(*many.figures.leastBetweenNeighbours >= row.question.floor);
    CHECK(many.figures.leastOnGround >= row.question.onGround - 1);
}

TEST_CASE("neighbours keep the floor that is asked for") {
    Row row(12);
    row.question.floor = GENERATE(5.0, 12.0, 20.0);
    CAPTURE(row.question.floor);
    const Colourway many = *recolour(*row.subject, row.question, *row.pool);
    CHECK(*many.figures.leastBetweenNeighbours >= row.question.floor);
}

TEST_CASE("colours are balanced by stitches") {
    Row row(12);
    row.question.colours = 4;
    const Colourway many = *recolour(*row.subject, row.question, *row.pool);
    std::map<QString, int> stitches;
    for (std::size_t i = 0; i < many.now.size(); ++i) {
        stitches[many.now[i].code()] += row.subject->parts.parts[i].stitches;
    }
    REQUIRE(stitches.size() == 4);
    for (const auto& [code, count] : stitches) {
        CAPTURE(code.toStdString());
        CHECK(count == 3 * 48);
    }
}

TEST_CASE("a locked motif keeps its thread and its neighbours make room") {
    Row row;
    const thread::Thread& red = row.cards[0].threads[2];
    row.question.locks[4] = {{{QStringLiteral("w"), red, 2}}, red.lab};
    const Colourway many = *recolour(*row.subject, row.question, *row.pool);
    CHECK(many.now[4].code() == red.code);
    CHECK(*many.figures.leastBetweenNeighbours >= row.question.floor);
}

TEST_CASE("one hue gives motifs of that hue that are told apart") {
    Row row;
    row.question.theme = HueFamily{250, false};
    const Colourway blues = *recolour(*row.subject, row.question, *row.pool);
    for (const Choice& choice : blues.now) {
        CAPTURE(choice.code().toStdString(), colour::hueDegrees(choice.lab));
        CHECK(std::abs(std::remainder(colour::hueDegrees(choice.lab) - 250, 360)) < 45);
    }
    CHECK(*blues.figures.leastBetweenNeighbours >= 12);
}

TEST_CASE("threads asked for by code are among the colours") {
    Row row;
    row.question.theme = FromThreads{{{QStringLiteral("w"), QStringLiteral("w-3")},
                                      {QStringLiteral("w"), QStringLiteral("w-101")}}};
    const auto codes = codesOf(*recolour(*row.subject, row.question, *row.pool));
    CHECK(codes.contains(QStringLiteral("w-3")));
    CHECK(codes.contains(QStringLiteral("w-101")));
}

TEST_CASE("a picture's colours come back as the nearest threads") {
    Row row;
    const std::vector<colour::Lab> sea{polar(40, 36, 240), polar(70, 38, 80), polar(30, 30, 20)};
    row.question.theme = FromPicture{sea};
    const Colourway painted = *recolour(*row.subject, row.question, *row.pool);
    CHECK(codesOf(painted).size() == 3);
    for (const Choice& choice : painted.now) {
        double nearest = 1000;
        for (const colour::Lab& lab : sea) {
            nearest = std::min(nearest, colour::deltaE00(lab, choice.lab));
        }
        CHECK(nearest < 9);
    }
}

TEST_CASE("a worked chart has a stitch where the chart has one, in its motif's thread") {
    const Row row;
    const Colourway many = *recolour(*row.subject, row.question, *row.pool);
    const chart::Chart worked = workedChart(*row.subject, many);
    CHECK(worked.isConsistent());
    CHECK(worked.key.size() == codesOf(many).size());
    const chart::Chart& chart = row.subject->chart;
    for (int y = 0; y < chart.grid.rows(); ++y) {
        for (int x = 0; x < chart.grid.columns(); ++x) {
            const chart::KeyIndex was = chart.grid.at({x, y});
            const chart::KeyIndex now = worked.grid.at({x, y});
            REQUIRE((was == chart::kBare) == (now == chart::kBare));
            if (now != chart::kBare) {
                REQUIRE(worked.key[now].code == many.now[row.subject->motifs->at({x, y})].code());
            }
        }
    }
}

TEST_CASE("a wall holds colourways that differ to the eye, the first the plain answer") {
    const Row row;
    int told = 0;
    const auto wall = alternatives(*row.subject, row.question, *row.pool, 8, {},
                                   [&](const Colourway&) { ++told; });
    REQUIRE(wall.size() == 8);
    CHECK(told == 8);
    CHECK(wall.front() == *recolour(*row.subject, row.question, *row.pool));
    for (std::size_t i = 0; i < wall.size(); ++i) {
        CHECK_FALSE(wall[i].name.isEmpty());
        CHECK(*wall[i].figures.leastBetweenNeighbours >= 10);
        for (std::size_t j = 0; j < i; ++j) {
            CHECK(codesOf(wall[i]) != codesOf(wall[j]));
        }
    }
}

TEST_CASE("more like one stays near it without repeating it") {
    const Row row;
    const Colourway liked = *recolour(*row.subject, row.question, *row.pool);
    const auto more = moreLike(*row.subject, row.question, *row.pool, liked, 6);
    REQUIRE(more.size() == 6);
    for (const Colourway& one : more) {
        CHECK(codesOf(one) != codesOf(liked));
        double apart = 0;
        for (const Choice& choice : one.now) {
            double nearest = 1000;
            for (const Choice& other : liked.now) {
                nearest = std::min(nearest, colour::deltaE00(choice.lab, other.lab));
            }
            apart += nearest / static_cast<double>(one.now.size());
        }
        CHECK(apart < 12);
    }
}

TEST_CASE("metallic and variegated threads are left to those who ask for them") {
    Row row;
    for (std::size_t i = 0; i < row.cards[0].threads.size(); i += 2) {
        row.cards[0].threads[i].finish =
            i % 4 == 0 ? thread::Finish::Metallic : thread::Finish::Variegated;
    }
    row.pool = poolOf(row.cards, {});
    const auto finishes = [&](const Colourway& colourway) {
        std::set<thread::Finish> found;
        for (const Choice& choice : colourway.now) {
            found.insert(choice.portions.front().thread.finish);
        }
        return found;
    };
    const std::set<thread::Finish> plain{thread::Finish::Unstated};
    for (const Colourway& one : alternatives(*row.subject, row.question, *row.pool, 4)) {
        CHECK(finishes(one) == plain);
    }
    row.question.filter.finish = thread::Finish::Metallic;
    row.pool = poolOf(row.cards, row.question.filter);
    CHECK(finishes(*recolour(*row.subject, row.question, *row.pool)) ==
          std::set<thread::Finish>{thread::Finish::Metallic});
}
