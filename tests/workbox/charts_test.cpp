// Charts and colourways in the workbox: every edit done, undone and done again, in memory and in
// the file.
#include "workbox/chart_samples.h"
#include "workbox/document.h"
#include "workbox/samples.h"

#include <functional>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

struct OpenCharts {
    Place place{Place::inMemory()};
    Document document{place.path()};
    ChartId id = document.addChart(sampleChart());

    [[nodiscard]] chart::Chart chart() const { return *document.chart(id); }
    /// The file holds what memory does, cells too.
    void checkFile() {
        CHECK(Store(place.path()).problems().empty());
        CHECK(inFile(place.path()) == document.contents());
    }
    /// One edit: done, undone, done again.
    void checkEdit(const std::function<void()>& edit) {
        const Contents before = document.contents();
        const int steps = document.undoStack().count();
        edit();
        const Contents after = document.contents();
        REQUIRE(document.undoStack().count() == steps + 1);
        CHECK_FALSE(after == before);
        checkFile();
        document.undoStack().undo();
        CHECK(document.contents() == before);
        checkFile();
        document.undoStack().redo();
        CHECK(document.contents() == after);
        checkFile();
    }
};

} // namespace

TEST_CASE("a chart comes back from the file as it went in") {
    const chart::Chart chart =
        GENERATE(sampleChart(), sampleChart(1, 1, 1), sampleChart(2000, 1, 3),
                 sampleChart(3, 2000, 300 - 55), sampleChart(63, 64, 2), sampleChart(64, 65, 2));
    const Place place(Place::inMemory());
    ChartId id{};
    {
        Document document(place.path());
        chart::Chart given = chart;
        given.lines.clear();
        id = document.addChart(given);
    }
    const Document document(place.path());
    REQUIRE(document.charts().size() == 1);
    CHECK(document.charts().front() == ChartFacts{id, chart.name, chart.grid.columns(),
                                                  chart.grid.rows(), factsOf(id, chart).stitches,
                                                  static_cast<int>(chart.key.size())});
    chart::Chart expected = chart;
    expected.lines.clear();
    CHECK(*document.chart(id) == expected);
}

TEST_CASE("charts are read only when they are asked for") {
    const Place place(Place::inMemory());
    {
        Document document(place.path());
        document.addChart(sampleChart());
    }
    const Document document(place.path());
    CHECK(document.contents().charts.front().chart == nullptr);
    CHECK(document.chart(document.charts().front().id) != nullptr);
    CHECK(document.contents().charts.front().chart != nullptr);
    CHECK(document.chart(ChartId{99}) == nullptr);
}

TEST_CASE("adding, renaming and deleting a chart can be undone") {
    OpenCharts open;
    open.checkEdit([&] { open.document.addChart(sampleChart(20, 30, 2)); });
    CHECK(open.document.charts()[1].name == QStringLiteral("Slope (2)"));
    open.checkEdit([&] { open.document.renameChart(open.id, QStringLiteral("  Wharf ")); });
    CHECK(open.document.charts()[0].name == QStringLiteral("Wharf"));
    CHECK(open.chart().name == QStringLiteral("Wharf"));
    const ColourwayId kept =
        open.document.addColourway(open.id, QStringLiteral("Dusk"), "{\"a\":1}");
    open.checkEdit([&] { open.document.removeChart(open.id); });
    CHECK_FALSE(open.document.colourway(kept));
    open.document.undoStack().undo();
    REQUIRE(open.document.colourway(kept));
    CHECK(open.document.colourway(kept)->content == "{\"a\":1}");
    CHECK(open.chart().grid == sampleChart().grid);
}

TEST_CASE("changing cells keeps only the rectangle that differs") {
    OpenCharts open;
    chart::Chart after = open.chart();
    after.grid.set({10, 60}, chart::kBare);
    after.grid.set({14, 66}, 3);
    after.grid.set({14, 66}, after.grid.at({14, 66}));
    std::vector<chart::Area> changed;
    QObject::connect(&open.document, &Document::chartChanged,
                     [&](ChartId, const chart::Area& cells) { changed.push_back(cells); });
    open.checkEdit([&] { open.document.changeChart(open.id, after, QStringLiteral("Stitch")); });
    chart::recount(after);
    CHECK(open.chart() == after);
    REQUIRE(changed.size() == 3); // do, undo, redo
    for (const chart::Area& area : changed) {
        CHECK(area.columns <= 5);
        CHECK(area.rows <= 7);
    }
}

TEST_CASE("changing the key or the lines can be undone and counts stitches anew") {
    OpenCharts open;
    chart::Chart after = open.chart();
    after.key[1].code = QStringLiteral("other");
    after.key.push_back(after.key[0]);
    after.key.back().pixel = {1, 2, 3};
    after.key.back().stitches = 77; // nobody's count
    open.checkEdit([&] { open.document.changeChart(open.id, after, QStringLiteral("Key")); });
    CHECK(open.chart().key.back().stitches == 0);
    after = open.chart();
    after.lines.push_back({1, 1, 2, 2, 0});
    open.checkEdit([&] { open.document.changeChart(open.id, after, QStringLiteral("Line")); });
}

TEST_CASE("a chart that would not be whole is refused and nothing changes") {
    OpenCharts open;
    const Contents before = open.document.contents();
    const auto refused = [&](const std::function<void(chart::Chart&)>& spoil) {
        chart::Chart after = open.chart();
        spoil(after);
        CHECK_THROWS_AS(open.document.changeChart(open.id, after, QStringLiteral("x")),
                        base::InputError);
        CHECK(open.document.contents() == before);
    };
    refused([](chart::Chart& chart) { chart.grid.set({0, 0}, 4); });
    refused([](chart::Chart& chart) { chart.key[0].pixel = chart.key[1].pixel; });
    refused([](chart::Chart& chart) { chart.lines[0].x2 = 301; });
    refused([](chart::Chart& chart) { chart.lines[0].key = 9; });
    refused([](chart::Chart& chart) { chart.key[0].strands = 0; });
    refused([](chart::Chart& chart) { chart.grid = chart::Grid(2, 2); });
    CHECK_THROWS_AS(open.document.addChart({}), base::InputError);
    CHECK_THROWS_AS(open.document.renameChart(open.id, QStringLiteral(" ")), base::InputError);
    CHECK_THROWS_AS(open.document.addColourway(open.id, QStringLiteral("x"), "no json"),
                    base::InputError);
    CHECK_THROWS_AS(open.document.addColourway(ChartId{99}, QStringLiteral("x"), "{}"),
                    base::InputError);
    open.checkFile();
}

TEST_CASE("a chart edit that comes to nothing makes no step") {
    OpenCharts open;
    const int steps = open.document.undoStack().count();
    open.document.changeChart(open.id, open.chart(), QStringLiteral("x"));
    open.document.changeMotifPlan(open.id, open.document.motifPlan(open.id), QStringLiteral("x"));
    open.document.renameChart(open.id, QStringLiteral("Slope"));
    CHECK(open.document.undoStack().count() == steps);
}

TEST_CASE("the motif plan is kept with the chart") {
    OpenCharts open;
    chart::MotifPlan plan;
    plan.step = 7;
    plan.edits = {chart::JoinMotifs{{1, 2}, {3, 4}},
                  chart::CutMotif{{5, 6}, {{0.25, 1e-3}, {9.5, 7}}},
                  chart::NameMotif{{7, 8}, QStringLiteral("Boat \"house\"")}};
    open.checkEdit([&] { open.document.changeMotifPlan(open.id, plan, QStringLiteral("Motifs")); });
    CHECK(open.document.motifPlan(open.id) == plan);
    CHECK(Document(open.place.path()).motifPlan(open.id) == plan);
}

TEST_CASE("colourways are kept with their chart") {
    OpenCharts open;
    ColourwayId id{};
    open.checkEdit([&] { id = open.document.addColourway(open.id, QStringLiteral("Dusk"), "{}"); });
    open.checkEdit([&] {
        open.document.changeColourway(id, QStringLiteral("Dawn"), "{\"b\":[1]}",
                                      QStringLiteral("Take"));
    });
    CHECK(open.document.colourways(open.id).size() == 1);
    open.checkEdit([&] { open.document.removeColourway(id); });
    CHECK(open.document.colourways(open.id).empty());
}

TEST_CASE("steps with one merge key become one, and none when they lead back") {
    OpenCharts open;
    const int steps = open.document.undoStack().count();
    const chart::Chart before = open.chart();
    chart::MotifPlan plan;
    for (const int step : {5, 6, 7}) {
        plan.step = step;
        open.document.changeMotifPlan(open.id, plan, QStringLiteral("Motifs"),
                                      QStringLiteral("slider"));
    }
    CHECK(open.document.undoStack().count() == steps + 1);
    plan.step = chart::kUsualStep;
    open.document.changeMotifPlan(open.id, plan, QStringLiteral("Motifs"),
                                  QStringLiteral("slider"));
    CHECK(open.document.undoStack().count() == steps);

    chart::Chart after = before;
    for (int x = 20; x < 24; ++x) { // each area holds the one before
        for (int k = 20; k <= x; ++k) {
            after.grid.set({k, 70}, after.grid.at({k, 70}) == 0 ? 1 : 0);
        }
        open.document.changeChart(open.id, after, QStringLiteral("Stitch"),
                                  QStringLiteral("stroke"));
    }
    open.document.undoStack().undo();
    open.checkFile();
    open.document.undoStack().redo();
    chart::recount(after);
    CHECK(open.chart() == after);
    open.checkFile();
}
