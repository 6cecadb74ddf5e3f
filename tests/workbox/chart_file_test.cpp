// How charts stand in the file: bands, damage, what `problems` finds.

#include "workbox/chart_samples.h"
#include "workbox/document.h"
#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

qint64 countIn(const QString& path, const QString& sql) {
    const QString name = QStringLiteral("counting");
    qint64 count = -1;
    {
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        database.setDatabaseName(path);
        REQUIRE(database.open());
        QSqlQuery query(database);
        REQUIRE(query.exec(sql));
        REQUIRE(query.next());
        count = query.value(0).toLongLong();
    }
    QSqlDatabase::removeDatabase(name);
    return count;
}

/// A workbox with a chart "Slope" of three bands, its motif plan and a colourway.
ChartId makeWithChart(const QString& path) {
    Document document(path);
    chart::MotifPlan plan;
    plan.step = 7;
    plan.edits = {chart::JoinMotifs{{1, 2}, {3, 4}}, chart::CutMotif{{5, 6}, {{0.25, 1e-3}}},
                  chart::NameMotif{{7, 8}, QStringLiteral("Boat \"house\"")}};
    const ChartId id = document.addChart(sampleChart(), plan);
    document.addColourway(id, QStringLiteral("Dusk"), "{\"a\":[1]}");
    return id;
}

} // namespace

TEST_CASE("a stroke writes only the bands that it touches and the key only when that changes") {
    const Place place(Place::inMemory());
    const ChartId id = makeWithChart(place.path());
    runSql(place.path(),
           {QStringLiteral("CREATE TABLE seen (what TEXT)"),
            QStringLiteral("CREATE TRIGGER band AFTER UPDATE ON chart_band BEGIN INSERT INTO seen "
                           "VALUES ('band ' || new.band); END"),
            QStringLiteral("CREATE TRIGGER keys AFTER UPDATE OF key, lines, motifs ON chart BEGIN "
                           "INSERT INTO seen VALUES ('key'); END")});
    Document document(place.path());
    chart::Chart after = *document.chart(id);
    for (const chart::Cell cell : {chart::Cell{149, 64}, {0, 127}}) { // the middle band's ends
        after.grid.set(cell, after.grid.at(cell) == 0 ? 1 : 0);
    }
    document.changeChart(id, after, QStringLiteral("Stitch"));
    CHECK(countIn(place.path(), QStringLiteral("SELECT count(*) FROM seen")) == 1);
    CHECK(countIn(place.path(),
                  QStringLiteral("SELECT count(*) FROM seen WHERE what = 'band 1'")) == 1);
    CHECK(inFile(place.path()) == document.contents());
}

TEST_CASE("a noisy chart that does not pack well comes back as it went in") {
    const Place place(Place::inMemory());
    chart::Chart chart = sampleChart(301, 200, 12);
    std::uint32_t noise = 7;
    for (chart::KeyIndex& cell : chart.grid.cells()) {
        noise = noise * 1664525 + 1013904223; // Knuth's "quick and dirty" step, from memory
        cell = static_cast<chart::KeyIndex>((noise >> 16) % 12);
    }
    chart::recount(chart);
    ChartId id{};
    {
        Document document(place.path());
        id = document.addChart(chart);
    }
    CHECK(*Document(place.path()).chart(id) == chart);
}

TEST_CASE("a damaged chart is refused when it is opened, and only it") {
    const Place place(Place::inMemory());
    const ChartId id = makeWithChart(place.path());
    ChartId sound{};
    {
        Document document(place.path());
        sound = document.addChart(sampleChart(5, 5, 2));
    }
    const char* spoil = GENERATE(
        "UPDATE chart_band SET cells = x'' WHERE band = 1",
        "UPDATE chart_band SET cells = x'0000000000' WHERE band = 1",
        "UPDATE chart_band SET cells = x'01ffffffff789c' WHERE band = 1",
        "UPDATE chart_band SET cells = CAST(cells || x'00' AS BLOB) WHERE band = 1",
        "UPDATE chart_band SET cells = CAST(x'02' || substr(cells, 2) AS BLOB) WHERE band = 1",
        "DELETE FROM chart_band WHERE band = 0", "DELETE FROM chart_band WHERE band = 2",
        "INSERT INTO chart_band SELECT chart, 3, cells FROM chart_band WHERE band = 2",
        "UPDATE chart SET key = '[]'", "UPDATE chart SET key = '{'",
        "UPDATE chart SET key = replace(key, '#005ac8', '#145ac7')", // the second row's
        "UPDATE chart SET key = replace(key, '\"S-1\"', '7')",
        "UPDATE chart SET key = replace(key, 'S-1\",\"shade \\\"1\\\", pale\",2', "
        "'S-1\",\"shade \\\"1\\\", pale\",0')",
        "UPDATE chart SET lines = x'00'", "UPDATE chart SET lines = x'00020000000100'",
        "UPDATE chart SET lines = x'00050000000100010001000100ffff'",
        "UPDATE chart SET lines = x'00050000000000000000009f0f0000'", "UPDATE chart SET rows = 200",
        "UPDATE chart SET columns = 151", "UPDATE chart SET motifs = '{}'",
        "UPDATE chart SET motifs = replace(motifs, '\"version\":1', '\"version\":2')",
        "UPDATE chart SET motifs = replace(motifs, '\"step\":7', '\"step\":11')",
        "UPDATE chart SET motifs = replace(motifs, '\"step\":7', '\"step\":7.5')",
        "UPDATE chart SET motifs = replace(motifs, '[1,2]', '[1,\"2\"]')",
        "UPDATE chart SET motifs = replace(motifs, '[0.25,0.001]', '[0.25]')",
        "UPDATE chart SET motifs = replace(motifs, '[0.25,0.001]', '[0.25,null]')",
        "UPDATE chart SET motifs = replace(motifs, '\"join\"', '\"bind\"')",
        "UPDATE chart SET motifs = replace(motifs, '\"step\":7', '\"step\":7,\"more\":1')");
    CAPTURE(spoil);
    const QString sql = QString::fromLatin1(spoil);
    const bool has = sql.contains(QStringLiteral(" WHERE "));
    runSql(place.path(),
           {sql + (has ? QStringLiteral(" AND ") : QStringLiteral(" WHERE ")) +
            (sql.startsWith(QStringLiteral("UPDATE chart SET")) ? QStringLiteral("id = %1")
                                                                : QStringLiteral("chart = %1"))
                .arg(static_cast<qint64>(id))});

    Document document(place.path()); // the rest of the workbox is there
    CHECK(document.charts().size() == 2);
    CHECK(document.chart(sound) != nullptr);
    CHECK_THAT(refusalOf([&] { (void)document.chart(id); }), Catch::Contains("a damaged file"));
    CHECK_THAT(refusalOf([&] { (void)document.motifPlan(id); }), Catch::Contains("a damaged file"));
    CHECK_THAT(refusalOf([&] { document.renameChart(id, QStringLiteral("New")); }),
               Catch::Contains("a damaged file"));
    CHECK(document.colourways(id).size() == 1);
    document.renameChart(sound, QStringLiteral("Quay"));
    CHECK(document.store().problems().size() == 1);
}

TEST_CASE("a size beyond the limits is refused before memory is spent on it") {
    const Place place(Place::inMemory());
    const ChartId id = makeWithChart(place.path());
    Store store(place.path()); // opened while it was sound
    const QString name = QStringLiteral("careless");
    {
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        database.setDatabaseName(place.path());
        REQUIRE(database.open());
        QSqlQuery query(database);
        REQUIRE(query.exec(QStringLiteral("PRAGMA ignore_check_constraints = ON")));
        REQUIRE(query.exec(QStringLiteral("UPDATE chart SET columns = 2000000000")));
    }
    QSqlDatabase::removeDatabase(name);
    CHECK_THAT(refusalOf([&] { (void)store.chart(id); }), Catch::Contains("the size of the chart"));
    CHECK_FALSE(store.problems().empty());
}

TEST_CASE("problems names what is not so of charts and colourways") {
    const Place place(Place::inMemory());
    makeWithChart(place.path());
    const QString damage =
        GENERATE(QStringLiteral("UPDATE chart SET stitches = 1"),
                 QStringLiteral("UPDATE chart SET key_rows = 3"),
                 QStringLiteral("UPDATE chart SET name = ' Slope'"),
                 QStringLiteral("UPDATE colourway SET content = '[]'"),
                 QStringLiteral("UPDATE colourway SET content = '{'"),
                 QStringLiteral("UPDATE colourway SET chart = 7"),
                 QStringLiteral("UPDATE chart_band SET chart = 7"),
                 QStringLiteral("DELETE FROM sqlite_sequence WHERE name = 'colourway'"));
    CAPTURE(damage.toStdString());
    REQUIRE(Store(place.path()).problems().empty());
    runSql(place.path(), {damage});
    CHECK_FALSE(Store(place.path()).problems().empty());
}

TEST_CASE("stitches that are not as they were read are not written over") {
    const Place place(Place::inMemory());
    const ChartId id = makeWithChart(place.path());
    Store store(place.path());
    const chart::Chart chart = *store.chart(id).chart;
    ChartPatch patch;
    patch.id = id;
    patch.cells = {3, 3, 1, 1};
    patch.before.cells = {static_cast<chart::KeyIndex>(chart.grid.at({3, 3}) == 0 ? 1 : 0)};
    patch.after.cells = {chart::kBare};
    Edit edit;
    edit.patches = {patch};
    CHECK_THAT(refusalOf([&] { store.apply(edit); }), Catch::Contains("found other stitches"));
    edit.patches.front().cells = {149, 3, 2, 1};
    edit.patches.front().before.cells = edit.patches.front().after.cells = {0, 0};
    CHECK_THAT(refusalOf([&] { store.apply(edit); }), Catch::Contains("found other stitches"));
    CHECK(*store.chart(id).chart == chart);
    CHECK(store.problems().empty());
}

TEST_CASE("what JSON cannot hold is refused before it is saved") {
    const Place place(Place::inMemory());
    Document document(place.path());
    const ChartId id = document.addChart(sampleChart(5, 5, 2));
    const Contents before = document.contents();
    chart::MotifPlan plan;
    plan.edits = {chart::CutMotif{{1, 1}, {{std::numeric_limits<double>::quiet_NaN(), 0}}}};
    CHECK_FALSE(
        refusalOf([&] { document.changeMotifPlan(id, plan, QStringLiteral("x")); }).empty());
    chart::Chart after = *document.chart(id);
    after.key[0].lab.a = std::numeric_limits<double>::infinity();
    CHECK_FALSE(refusalOf([&] { document.changeChart(id, after, QStringLiteral("x")); }).empty());
    for (const char* content : {"", "[]", "{", "{\"a\":\"\xff\"}", "\xef\xbb\xbf{}"}) {
        CAPTURE(content);
        CHECK_FALSE(
            refusalOf([&] { document.addColourway(id, QStringLiteral("x"), content); }).empty());
    }
    chart::Chart large = *document.chart(id);
    large.key.resize(chart::kMostKeyRows + 1, large.key.front());
    CHECK_THAT(refusalOf([&] { document.changeChart(id, large, QStringLiteral("x")); }),
               Catch::Contains("at most 300 rows"));
    CHECK(document.contents() == before);
    CHECK(inFile(place.path()) == before);
}
