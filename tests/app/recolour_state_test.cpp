#include "app/recolour/recolour_state.h"

#include "app/recolour/colourway_rows.h"
#include "app/recolour/hue_strip.h"
#include "app/recolour_fixture.h"

#include <catch2/catch.hpp>

#include <set>

using namespace otherskein;

namespace {

app::RecolourState oddState() {
    app::RecolourState state;
    state.chart = workbox::ChartId{3};
    state.colourway = workbox::ColourwayId{7};
    state.job = app::RecolourJob::Family;
    state.source = app::ColourSource::Picture;
    state.hue = 130;
    state.neutralsToo = true;
    state.pictureName = QStringLiteral("sea.png");
    state.pictureColours = {{50, 10, -20}, {70, -5, 30.5}};
    state.colours = 9;
    state.floor = 15;
    state.onlyStash = true;
    state.blends = true;
    state.seed = 49;
    state.cardsLeftOut = {QStringLiteral("round")};
    state.more = true;
    state.divider = 0.25;
    return state;
}

} // namespace

TEST_CASE("the state of recolour survives being remembered") {
    CHECK(app::rememberedState(app::rememberedText(oddState()), {}) == oddState());
}

TEST_CASE("spoiled text leaves the state of recolour as it was") {
    const app::RecolourState state = oddState();
    CHECK(app::rememberedState(QStringLiteral("{nonsense"), state) == state);
    const app::RecolourState odd = app::rememberedState(
        QStringLiteral(R"({"job": 99, "source": -4, "hue": 1e9, "floor": -3, "colours": 1e6})"),
        {});
    CHECK(odd.job == app::RecolourJob::Convert);
    CHECK(odd.source == app::ColourSource::MyThreads);
    CHECK(odd.hue <= 360);
    CHECK(odd.floor == 0);
    CHECK(odd.seed == 1);
}

TEST_CASE("a question gives back the switches that it was made from") {
    const thread::Ground ground = thread::groundOfSrgb(QStringLiteral("linen"), {230, 220, 200});
    for (const auto job :
         {app::RecolourJob::Motifs, app::RecolourJob::Family, app::RecolourJob::Convert}) {
        for (const auto source : app::sourcesOf(job)) {
            app::RecolourState state = oddState();
            state.job = job;
            state.source = source;
            state.onlyStash = false;
            const auto question = app::questionOf(state, ground);
            app::RecolourState other = oddState();
            other.onlyStash = true;
            CHECK(app::withQuestion(other, question) == state);
            CHECK(question.ground == ground);
        }
    }
}

TEST_CASE("hundreds of motifs are grouped by the thread they take") {
    chart::Chart chart = tests::rowOfSquares(30, 1, [](int) { return 0; });
    const thread::ShadeCard card = tests::roundCard();
    const thread::ShadeCard* cards[] = {&card};
    const auto subject = colourway::subjectOf(chart, colourway::By::Motif, {}, cards);
    REQUIRE(subject->parts.parts.size() == 30);
    std::vector<colourway::Choice> now;
    for (std::size_t i = 0; i < 30; ++i) {
        const thread::Thread& thread = card.threads[i % 4];
        now.push_back({{{card.name, thread, 2}}, thread.lab});
    }
    const std::map<std::size_t, colourway::Choice> locks{{1, now[1]}};
    const auto rows = app::rowsOf(*subject, now, locks);
    REQUIRE(rows.size() == 4);
    std::set<std::size_t> parts;
    for (const app::ColourwayRow& row : rows) {
        parts.insert(row.parts.begin(), row.parts.end());
        CHECK(row.label == QStringLiteral("%1 motifs").arg(row.parts.size()));
        CHECK(row.stitches == static_cast<int>(row.parts.size()) * 25);
        CHECK_FALSE(row.isLocked());
    }
    CHECK(parts.size() == 30);
}

TEST_CASE("hues have the names that their colours are called by") {
    CHECK(app::hueName(30) == QStringLiteral("red"));
    CHECK(app::hueName(95) == QStringLiteral("yellow"));
    CHECK(app::hueName(140) == QStringLiteral("green"));
    CHECK(app::hueName(270) == QStringLiteral("blue"));
    CHECK(app::hueName(355) == app::hueName(5));
}
