// Substituting inside a chart whose picture is known: touching rows are weighed by their border.
#include "chart_samples.h"
#include "colourway/key_threads.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

/// Slate touches a light grey along a long border; an equally near grey stands far away.
struct Roof {
    thread::Thread slate = threadOf("slate", {45, -2, -12});
    chart::Chart chart =
        drawn({"AAAAAAAABBBBBBBB", "AAAAAAAABBBBBBBB", "................", "CCCCCCCC........"},
              {{1, 1, 1}, {2, 2, 2}, {3, 3, 3}});
    SubstituteQuestion question;

    Roof() {
        chart.key[0].lab = slate.lab;
        chart.key[0].code = slate.code;
        chart.key[0].card = QStringLiteral("card");
        chart.key[1].lab = {52, -2, -11}; // touches
        chart.key[2].lab = {38, -2, -13}; // stands apart
        question = questionOf("card", slate);
        question.key = chart.key;
        question.touching = chart::neighboursOf(chart.grid, chart.key.size());
        question.limit = 3;
    }
};

const std::vector<thread::ShadeCard> kCards{
    cardOf("shop", {threadOf("towards-touching", {48.4, -2, -11.5}),
                    threadOf("towards-apart", {41, -2, -12.5}), threadOf("far", {45, -2, 20})})};

bool warnsOf(const Candidate& candidate, const QString& text) {
    return std::ranges::any_of(candidate.warnings, [&](const Warning& warning) {
        return warning.kind == WarningKind::CloseInKey && warning.text.contains(text);
    });
}

} // namespace

TEST_CASE("best in the chart prefers what keeps apart from the thread that it touches") {
    Roof roof;
    CHECK(listed(findSubstitutes(roof.question, *poolOf(kCards, {}))) ==
          "shop:towards-touching shop:towards-apart shop:far");
    roof.question.order = Order::InChart;
    const auto best = findSubstitutes(roof.question, *poolOf(kCards, {}));
    CHECK(listed(best) == "shop:towards-apart shop:towards-touching shop:far");
    for (const Candidate& candidate : best) {
        REQUIRE(candidate.costInChart);
    }
    CHECK(*best[0].costInChart < *best[1].costInChart);
}

TEST_CASE("closeness is warned of with the border where rows touch, and not where they never do") {
    const Roof roof;
    const auto found = findSubstitutes(roof.question, *poolOf(kCards, {}));
    REQUIRE(found.size() == 3);
    CHECK(warnsOf(found[0], QStringLiteral("Close to C-2 (2-stitch border)")));
    CHECK_FALSE(warnsOf(found[1], QStringLiteral("C-3"))); // ΔE00 about 3, but apart
}

TEST_CASE("without a picture, every row of the key counts as before") {
    Roof roof;
    roof.question.touching.clear();
    const auto found = findSubstitutes(roof.question, *poolOf(kCards, {}));
    CHECK(warnsOf(found[0], QStringLiteral("Close to C-2 in the chart")));
    CHECK(warnsOf(found[1], QStringLiteral("Close to C-3 in the chart")));
    CHECK_FALSE(found[0].costInChart);
}
