// The undo steps of charts: merging, the bound, what each keeps, what other programs do meanwhile.

#include "workbox/chart_samples.h"
#include "workbox/document.h"
#include "workbox/random_edits.h"
#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

const QString kText = QStringLiteral("Stitch");
const QString kStroke = QStringLiteral("stroke");

struct Open {
    Place place{Place::inMemory()};
    Document document{place.path()};
    ChartId id{};

    explicit Open(const chart::Chart& chart = sampleChart()) : id(document.addChart(chart)) {
        document.undoStack().clear();
    }

    [[nodiscard]] chart::Chart chart() const { return *document.chart(id); }
    [[nodiscard]] int steps() { return document.undoStack().count(); }
    /// One cell gets another row of the key than it has.
    void stitch(const chart::Cell& cell, const QString& mergeKey = {}) {
        chart::Chart after = chart();
        after.grid.set(cell, after.grid.at(cell) == 0 ? 1 : 0);
        document.changeChart(id, after, kText, mergeKey);
    }
    void checkFile() { CHECK(inFile(place.path()) == document.contents()); }
};

} // namespace

TEST_CASE("a stroke of cells that lie apart becomes one step and is undone whole") {
    Open open;
    const Contents before = open.document.contents();
    for (const chart::Cell cell : {chart::Cell{3, 5}, {140, 130}, {70, 2}, {3, 5}, {0, 139}}) {
        open.stitch(cell, kStroke);
        open.checkFile();
    }
    CHECK(open.steps() == 1);
    const Contents after = open.document.contents();
    for (int again = 0; again < 2; ++again) {
        open.document.undoStack().undo();
        CHECK(open.document.contents() == before);
        open.checkFile();
        open.document.undoStack().redo();
        CHECK(open.document.contents() == after);
        open.checkFile();
    }
    CHECK(open.document.store().problems().empty());
}

TEST_CASE("a stroke keeps what other steps did between its cells") {
    Open open;
    open.stitch({10, 10}, QStringLiteral("an earlier stroke"));
    const Contents before = open.document.contents();
    open.stitch({5, 5}, kStroke);
    open.stitch({20, 20}, kStroke); // the area now holds 10, 10
    CHECK(open.steps() == 2);
    open.document.undoStack().undo();
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("a stroke that leads back leaves no step, cells and key alike") {
    Open open;
    const Contents before = open.document.contents();
    chart::Chart changed = open.chart();
    changed.grid.set({1, 1}, 0);
    changed.grid.set({1, 2}, chart::kBare);
    changed.key[2].name = QStringLiteral("else");
    changed.lines.clear();
    const chart::Chart start = open.chart();
    open.document.changeChart(open.id, changed, kText, kStroke);
    open.document.changeChart(open.id, start, kText, kStroke);
    CHECK(open.steps() == 0);
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("strokes with different keys or on different charts stay steps") {
    Open open;
    const ChartId other = open.document.addChart(sampleChart(10, 10));
    open.stitch({1, 1}, kStroke);
    open.stitch({2, 1}, QStringLiteral("another"));
    open.stitch({3, 1});
    open.stitch({4, 1}, kStroke);
    chart::Chart after = *open.document.chart(other);
    after.grid.set({1, 1}, 3);
    open.document.changeChart(other, after, kText, kStroke);
    CHECK(open.steps() == 6); // with the chart added
}

TEST_CASE("a key that grows and shrinks with its stitches is counted right each way") {
    Open open;
    const Contents before = open.document.contents();
    chart::Chart after = open.chart();
    after.key.erase(after.key.begin() + 1); // later rows move up
    for (chart::KeyIndex& cell : after.grid.cells()) {
        cell = cell == chart::kBare || cell == 0 ? cell : static_cast<chart::KeyIndex>(cell - 1);
    }
    after.lines.clear();
    open.document.changeChart(open.id, after, kText);
    CHECK(open.chart().isConsistent());
    CHECK(open.document.charts().front().keyRows == 3);
    open.checkFile();
    open.document.undoStack().undo();
    CHECK(open.document.contents() == before);
    CHECK(open.chart().isConsistent());
    open.checkFile();
}

TEST_CASE("a small stroke keeps little for undo however large chart and key are") {
    Open open(sampleChart(1000, 300, 12));
    const chart::Chart before = open.chart();
    chart::Chart after = before;
    after.grid.set({500, 100}, after.grid.at({500, 100}) == 0 ? 1 : 0);
    ChartPatch patch;
    patch.id = open.id;
    patch.cells = {500, 100, 1, 1};
    patch.before.cells = {before.grid.at({500, 100})};
    patch.after.cells = {after.grid.at({500, 100})};
    Edit small;
    small.patches = {patch};
    CHECK(byteSize(small) < 2000);
    // The store takes just that, and the file is then as if the document had done it.
    open.document.store().apply(small);
    chart::recount(after);
    CHECK(*open.document.store().chart(open.id).chart == after);
    CHECK(open.document.store().problems().empty());
}

TEST_CASE("the size of an edit counts its cells, keys, lines and colourways") {
    Open open;
    const auto stored = open.document.contents().charts.front();
    Edit adding;
    adding.charts.push_back({std::nullopt, stored});
    CHECK(byteSize(adding) >= sizeof(chart::KeyIndex) * 150 * 140);
    Edit patching;
    ChartPatch patch;
    patch.after.cells.resize(10'000);
    patch.before.cells.resize(10'000);
    patch.after.lines = std::vector<chart::Line>(1000);
    patch.after.key = chart::Key(100);
    patching.patches.push_back(patch);
    CHECK(byteSize(patching) >= 2 * 10'000 * sizeof(chart::KeyIndex) + 1000 * sizeof(chart::Line) +
                                    100 * sizeof(chart::KeyRow));
    Edit colourway;
    colourway.colourways.push_back(
        {std::nullopt, StoredColourway{{}, {}, {}, QByteArray(5000, ' ')}});
    CHECK(byteSize(colourway) >= 5000);
}

TEST_CASE("the oldest strokes are forgotten when the history grows too large") {
    constexpr int kSide = 2000;
    Open open(sampleChart(kSide, kSide, 2)); // 8 MB of cells, before and after
    constexpr int kMade = 18;
    chart::Chart after = open.chart();
    std::vector<int> stitches;
    for (int i = 0; i < kMade; ++i) {
        stitches.push_back(open.document.charts().front().stitches);
        after.grid.set({0, 0}, after.grid.at({0, 0}) == 0 ? 1 : 0); // so that the area is whole
        after.grid.set({kSide - 1, kSide - 1}, after.grid.at({kSide - 1, kSide - 1}) == 0 ? 1 : 0);
        after.grid.set({5, 5 + i}, after.grid.at({5, 5 + i}) == chart::kBare ? 0 : chart::kBare);
        open.document.changeChart(open.id, after, kText, QString::number(i));
    }
    CHECK(open.steps() < kMade);
    CHECK(open.steps() >= 7);
    for (int i = kMade - 1; open.document.undoStack().canUndo(); --i) {
        open.document.undoStack().undo();
        CHECK(open.document.charts().front().stitches == stitches.at(static_cast<std::size_t>(i)));
    }
    open.checkFile();
}

TEST_CASE("steps with one key that were kept apart are not joined when old ones are forgotten") {
    constexpr int kSide = 2000;
    Open open(sampleChart(kSide, kSide, 2));
    const chart::Cell corner{kSide - 1, kSide - 1};
    std::vector<chart::KeyIndex> corners;
    for (int i = 0; i < 18; ++i) {
        corners.push_back(open.document.chart(open.id)->grid.at(corner));
        chart::Chart after = open.chart();
        after.grid.set({0, 0}, after.grid.at({0, 0}) == 0 ? 1 : 0);
        after.grid.set(corner, after.grid.at(corner) == 0 ? 1 : 0);
        open.document.changeChart(open.id, after, kText, kStroke);
        open.document.undoStack().setClean(); // a step is not joined to one that was kept
    }
    REQUIRE(open.steps() >= 7);
    for (auto i = corners.size(); open.document.undoStack().canUndo();) {
        open.document.undoStack().undo();
        CHECK(open.document.chart(open.id)->grid.at(corner) == corners.at(--i));
    }
    open.checkFile();
}

TEST_CASE("a chart that another window has changed is not written over") {
    Open open;
    Document other(open.place.path());
    open.stitch({1, 1});
    CHECK(other.store().changedElsewhere());
    CHECK_THAT(refusalOf([&] { other.renameChart(open.id, QStringLiteral("Theirs")); }),
               Catch::Contains("another program has changed"));
    CHECK_THAT(refusalOf([&] { other.addColourway(open.id, QStringLiteral("x"), "{}"); }),
               Catch::Contains("another program has changed"));
    int charts = 0;
    int changed = 0;
    QObject::connect(&other, &Document::chartsChanged, [&] { ++charts; });
    QObject::connect(&other, &Document::chartChanged, [&] { ++changed; });
    other.reload();
    CHECK(charts == 1);
    CHECK(changed == 1);
    CHECK(*other.chart(open.id) == open.chart());
    other.renameChart(open.id, QStringLiteral("Theirs"));
    CHECK(inFile(open.place.path()) == other.contents());
}

TEST_CASE("an undo of a chart that cannot be saved is dropped and the chart stays") {
    Open open;
    open.stitch({1, 1});
    const Contents before = open.document.contents();
    std::vector<QString> lines;
    QObject::connect(&open.document, &Document::saveFailed,
                     [&](const QString& line) { lines.push_back(line); });
    runSql(open.place.path(), {QStringLiteral("CREATE TRIGGER failure BEFORE UPDATE ON chart_band "
                                              "BEGIN SELECT raise(ABORT, 'no room'); END")});
    open.document.undoStack().undo();
    CHECK(lines.size() == 1);
    CHECK(open.document.contents() == before);
    open.checkFile();
}

TEST_CASE("a random walk leaves the file as the memory and is undone to its start") {
    const Place place(Place::inMemory());
    Document document(place.path());
    document.addCard(numberedCard(QStringLiteral("One"), 3));
    document.addCard(numberedCard(QStringLiteral("Two"), 3));
    document.addChart(sampleChart(70, 130));
    document.undoStack().clear();
    const Contents start = document.contents();
    constexpr quint64 kSeed = 9081;
    RandomEdits edits(document, kSeed);
    for (int i = 0; i < 250; ++i) {
        CAPTURE(kSeed, i);
        edits.step();
        REQUIRE(inFile(place.path()) == document.contents());
    }
    CHECK(document.store().problems().empty());
    while (document.undoStack().canUndo()) {
        document.undoStack().undo();
    }
    CHECK(document.contents() == start);
    CHECK(inFile(place.path()) == start);
}
