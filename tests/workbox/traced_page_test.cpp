// The page of a traced chart: kept with the chart, what was seen of it saved as it happens.

#include "workbox/chart_samples.h"
#include "workbox/document.h"
#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

const QString kAccept = QStringLiteral("Accept");

TracedPage samplePage(const chart::Chart& chart) {
    TracedPage page{QByteArray("\x89PNG\0 not looked into", 22), 24, {}};
    for (std::size_t i = 0; i < chart.grid.cells().size(); ++i) {
        page.confidence.push_back(static_cast<std::uint8_t>(i * 7));
    }
    return page;
}

struct OpenTraced {
    Place place{Place::inMemory()};
    Document document{place.path()};
    ChartId id{};

    OpenTraced() {
        const chart::Chart chart = sampleChart(37, 70, 3);
        id = document.addTracedChart(chart, samplePage(chart));
    }

    [[nodiscard]] bool seen(const chart::Cell& cell) const {
        return document.tracedPage(id)->seen[document.chart(id)->grid.indexOf(cell)] != 0;
    }
    [[nodiscard]] std::size_t seenCells() const {
        std::size_t count = 0;
        for (const std::uint8_t one : document.tracedPage(id)->seen) {
            count += one;
        }
        return count;
    }
    void accept(const std::vector<chart::Cell>& cells, bool is = true, const QString& key = {}) {
        document.setSeen(id, cells, is, kAccept, key);
    }
    [[nodiscard]] int steps() { return document.undoStack().count(); }
    void checkFile() {
        CHECK(inFile(place.path()) == document.contents());
        CHECK(document.store().problems().empty());
    }
};

} // namespace

TEST_CASE("a traced chart is added, undone and redone with its page, and a new session has it") {
    OpenTraced open;
    const Contents after = open.document.contents();
    TracedPage expected = samplePage(*open.document.chart(open.id));
    expected.seen.assign(37 * 70, 0);
    REQUIRE(open.document.tracedPage(open.id));
    CHECK(*open.document.tracedPage(open.id) == expected);
    CHECK(open.steps() == 1);
    open.checkFile();
    open.document.undoStack().undo();
    CHECK(open.document.tracedPage(open.id) == nullptr);
    CHECK(open.document.charts().empty());
    open.checkFile();
    open.document.undoStack().redo();
    CHECK(open.document.contents() == after);
    open.checkFile();
    const Document again(open.place.path());
    CHECK(*again.tracedPage(open.id) == expected);
}

TEST_CASE("a chart that was not traced has no page and takes no marks") {
    OpenTraced open;
    const ChartId plain = open.document.addChart(sampleChart(5, 5, 2));
    CHECK(open.document.tracedPage(plain) == nullptr);
    CHECK(open.document.tracedPage(ChartId{99}) == nullptr);
    const std::vector<chart::Cell> cells{{1, 1}};
    CHECK_FALSE(refusalOf([&] { open.document.setSeen(plain, cells, true, kAccept); }).empty());
    chart::Chart after = *open.document.chart(plain);
    after.grid.set({1, 1}, chart::kBare);
    open.document.changeChart(plain, after, QStringLiteral("x"), {}, cells); // marks nothing
    CHECK(open.document.tracedPage(plain) == nullptr);
    open.checkFile();
}

TEST_CASE("a cell that is accepted is so in the file at once, and undo takes it back") {
    OpenTraced open;
    const Contents before = open.document.contents();
    const auto chart = open.document.chart(open.id);
    ChartId told{};
    int times = 0;
    QObject::connect(&open.document, &Document::tracedPageChanged, [&](ChartId id) {
        told = id;
        ++times;
    });
    open.accept({{36, 69}, {0, 0}, {36, 69}, {40, 3}, {-1, 0}}); // doubled, outside
    CHECK(told == open.id);
    CHECK(times == 1);
    CHECK(open.seen({36, 69}));
    CHECK(open.seen({0, 0}));
    CHECK(open.seenCells() == 2);
    CHECK(open.document.chart(open.id) == chart); // the chart itself stays, not a copy
    CHECK(Document(open.place.path()).tracedPage(open.id)->seen ==
          open.document.tracedPage(open.id)->seen);
    const Contents after = open.document.contents();
    open.checkFile();
    for (int again = 0; again < 2; ++again) {
        open.document.undoStack().undo();
        CHECK(open.document.contents() == before);
        open.checkFile();
        open.document.undoStack().redo();
        CHECK(open.document.contents() == after);
        open.checkFile();
    }
    open.accept({{0, 0}}); // so already: no step
    CHECK(open.steps() == 2);
    open.accept({{0, 0}}, false);
    CHECK(open.seenCells() == 1);
    CHECK(open.steps() == 3);
}

TEST_CASE("a mended cell counts as seen in the same step") {
    OpenTraced open;
    const Contents before = open.document.contents();
    chart::Chart after = *open.document.chart(open.id);
    after.grid.set({5, 66}, chart::kBare);
    const std::vector<chart::Cell> cells{{5, 66}};
    open.document.changeChart(open.id, after, QStringLiteral("Mend"), {}, cells);
    CHECK(open.steps() == 2);
    CHECK(open.seen({5, 66}));
    CHECK(open.document.chart(open.id)->grid.at({5, 66}) == chart::kBare);
    open.checkFile();
    open.document.undoStack().undo();
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("marks of one merge key become one step, and none when they lead back") {
    OpenTraced open;
    const Contents before = open.document.contents();
    const QString key = QStringLiteral("looking");
    open.accept({{1, 1}, {2, 1}}, true, key);
    chart::Chart mended = *open.document.chart(open.id);
    mended.grid.set({9, 9}, 1);
    mended.grid.set({9, 10}, chart::kBare);
    const std::vector<chart::Cell> cells{{9, 9}, {9, 10}};
    open.document.changeChart(open.id, mended, kAccept, key, cells);
    open.accept({{2, 1}, {3, 1}}, true, key);
    open.accept({{1, 1}}, false, key);
    CHECK(open.steps() == 2);
    CHECK(open.seenCells() == 4);
    open.checkFile();
    const Contents after = open.document.contents();
    open.document.undoStack().undo();
    CHECK(open.document.contents() == before);
    open.checkFile();
    open.document.undoStack().redo();
    CHECK(open.document.contents() == after);
    open.checkFile();
    open.document.undoStack().undo();
    open.accept({{4, 4}}, true, key);
    open.accept({{4, 4}}, false, key);
    CHECK(open.steps() == 1);
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("a traced chart that is deleted comes back with its page and what was seen of it") {
    OpenTraced open;
    open.accept({{7, 7}});
    const Contents before = open.document.contents();
    open.document.removeChart(open.id);
    CHECK(open.document.tracedPage(open.id) == nullptr);
    open.checkFile();
    open.document.undoStack().undo();
    CHECK(open.document.contents() == before);
    CHECK(open.seen({7, 7}));
    open.checkFile();
}

TEST_CASE("a deleted chart leaves nothing of its page in the file") {
    OpenTraced open;
    open.document.removeChart(open.id);
    runSql(open.place.path(), // fails where a row is left
           {QStringLiteral("CREATE TABLE probe (n INTEGER CHECK (n = 0))"),
            QStringLiteral("INSERT INTO probe SELECT (SELECT count(*) FROM traced_page) + "
                           "(SELECT count(*) FROM traced_seen)")});
}

TEST_CASE("undo knows what a page weighs") {
    OpenTraced open;
    StoredChart stored = open.document.contents().charts.front();
    TracedPage heavy = *stored.page;
    heavy.picture = QByteArray(3'000'000, 'x');
    Edit light;
    light.charts.push_back({std::nullopt, stored});
    stored.page = std::make_shared<const TracedPage>(heavy);
    Edit weighty;
    weighty.charts.push_back({std::nullopt, stored});
    CHECK(byteSize(weighty) - byteSize(light) > 2'999'000);
}

TEST_CASE("a page that does not fit its chart is refused and nothing changes") {
    OpenTraced open;
    const Contents before = open.document.contents();
    const chart::Chart chart = sampleChart(5, 4, 2);
    const auto refusal = [&](const auto& spoil) {
        TracedPage page = samplePage(chart);
        spoil(page);
        return refusalOf([&] { open.document.addTracedChart(chart, page); });
    };
    CHECK_THAT(refusal([](TracedPage& page) { page.confidence.pop_back(); }),
               Catch::EndsWith("of each of 20 cells, found 19 and 20"));
    CHECK_THAT(refusal([](TracedPage& page) { page.seen.assign(21, 0); }),
               Catch::EndsWith("found 20 and 21"));
    CHECK_THAT(refusal([](TracedPage& page) { page.cell = 0; }), Catch::EndsWith("0 px"));
    CHECK_THAT(refusal([](TracedPage& page) { page.cell = kMostTracedCell + 1; }),
               Catch::EndsWith("1001 px"));
    CHECK_THAT(refusal([](TracedPage& page) { page.picture.clear(); }),
               Catch::Contains("found 0 bytes"));
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("a damaged page is found, and only its chart is refused") {
    OpenTraced open;
    open.document.addChart(sampleChart(5, 5, 2));
    open.accept({{1, 1}});
    const QString damage =
        GENERATE(QStringLiteral("UPDATE traced_page SET confidence = x'00'"),
                 QStringLiteral("UPDATE traced_page SET confidence = x'00010000000900'"),
                 QStringLiteral("UPDATE traced_page SET picture = x''"),
                 QStringLiteral("DELETE FROM traced_seen"),
                 QStringLiteral("UPDATE traced_seen SET cells = x'00000000'"),
                 QStringLiteral("UPDATE traced_seen SET cells = x'000100000009000900'"),
                 QStringLiteral("UPDATE chart SET rows = 71 WHERE name = 'Slope'"));
    CAPTURE(damage.toStdString());
    runSql(open.place.path(), {damage});
    const Document again(open.place.path());
    CHECK_THAT(refusalOf([&] { (void)again.chart(open.id); }), Catch::Contains("a damaged file"));
    CHECK(again.chart(again.charts().back().id) != nullptr);
    CHECK_FALSE(Store(open.place.path()).problems().empty());
}

TEST_CASE("marks that are not as they were read are not written over") {
    OpenTraced open;
    open.accept({{1, 0}});
    Store store(open.place.path());
    ChartPatch patch;
    patch.id = open.id;
    patch.marked = {1};
    patch.before.seen = {0}; // it is 1
    patch.after.seen = {1};
    Edit edit;
    edit.patches = {patch};
    CHECK_THAT(refusalOf([&] { store.apply(edit); }), Catch::Contains("looked at"));
    edit.patches.front().marked = {37 * 70};
    CHECK_THAT(refusalOf([&] { store.apply(edit); }), Catch::Contains("looked at"));
    CHECK(store.problems().empty());
}
