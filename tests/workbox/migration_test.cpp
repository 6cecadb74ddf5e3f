#include "workbox/chart_samples.h"
#include "workbox/document.h"
#include "workbox/old_workbox.h"

#include <QDir>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

/// user_version in the file's header (big-endian, at byte 60).
int schemaOf(const QString& path) {
    return bytesOf(path).at(63);
}

} // namespace

TEST_CASE("an old workbox is brought forward with all that it holds") {
    const Place place;
    makeOldWorkbox(place.path());
    {
        Store store(place.path());
        CHECK(store.load() == oldContents());
        CHECK(store.problems().empty());
        CHECK(static_cast<qint64>(store.nextThreadId()) == 13);
        store.setSetting(QStringLiteral("ground"), QStringLiteral("1"));
    }
    CHECK(schemaOf(place.path()) == Store::kSchemaVersion);
}

TEST_CASE("a workbox of schema 2 is brought forward and takes charts") {
    const Place place;
    makeOldWorkbox(place.path(), 2);
    {
        Store store(place.path());
        CHECK(store.load() == oldContents2());
        CHECK(store.problems().empty());
        CHECK(store.setting(QStringLiteral("ground")) == QStringLiteral("2"));
    }
    CHECK(schemaOf(place.path()) == Store::kSchemaVersion);
    CHECK(schemaOf(place.path(QStringLiteral("workbox.sqlite.v2.bak"))) == 2);
    Document document(place.path());
    document.addChart(sampleChart());
    CHECK(document.store().problems().empty());
    CHECK(inFile(place.path()) == document.contents());
}

TEST_CASE("a workbox of schema 3 is brought forward and its grounds take a size and a photo") {
    const Place place;
    makeOldWorkbox(place.path(), 3);
    thread::Ground piece;
    {
        Document document(place.path());
        CHECK(document.contents() == oldContents3());
        REQUIRE(document.chart(ChartId{1}));
        CHECK(*document.chart(ChartId{1}) == sampleChart(7, 5, 2));
        piece = document.grounds().front().ground;
        piece.widthMm = 457.2;
        piece.heightMm = 685.8;
        piece.photo = QByteArray("\x89PNG\0 not looked into", 22);
        document.changeGround(GroundId{2}, piece);
        CHECK(document.store().problems().empty());
    }
    CHECK(schemaOf(place.path(QStringLiteral("workbox.sqlite.v3.bak"))) == 3);
    Document again(place.path());
    CHECK(again.grounds().front().ground == piece);
    again.undoStack().undo(); // nothing to undo in a new session
    CHECK(again.grounds().front().ground == piece);
}

TEST_CASE("a workbox of schema 4 is brought forward and takes a traced chart") {
    const Place place;
    makeOldWorkbox(place.path(), 4);
    TracedPage page{QByteArrayLiteral("not looked into"), 20, std::vector<std::uint8_t>(35, 200)};
    ChartId traced{};
    {
        Document document(place.path());
        CHECK(document.contents() == oldContents4());
        REQUIRE(document.chart(ChartId{1}));
        CHECK(*document.chart(ChartId{1}) == sampleChart(7, 5, 2));
        CHECK(document.tracedPage(ChartId{1}) == nullptr);
        traced = document.addTracedChart(sampleChart(7, 5, 2), page);
        CHECK(document.store().problems().empty());
    }
    CHECK(schemaOf(place.path()) == Store::kSchemaVersion);
    CHECK(schemaOf(place.path(QStringLiteral("workbox.sqlite.v4.bak"))) == 4);
    const Document again(place.path());
    page.seen.assign(35, 0);
    REQUIRE(again.tracedPage(traced));
    CHECK(*again.tracedPage(traced) == page);
    CHECK(again.tracedPage(ChartId{1}) == nullptr);
}

TEST_CASE("a piece of an absurd size or with a huge photo is refused and nothing changes") {
    const Place place;
    Document document(place.path());
    thread::Ground piece;
    piece.name = QStringLiteral("Bolt");
    piece.widthMm = 10'001;
    CHECK_THAT(refusalOf([&] { document.addGround(piece); }), Catch::Contains("width_mm"));
    piece.widthMm = 100;
    piece.heightMm = -1;
    CHECK_THAT(refusalOf([&] { document.addGround(piece); }), Catch::Contains("height_mm"));
    piece.heightMm = 0;
    piece.photo = QByteArray(thread::limits::kMostPhotoBytes + 1, 'x');
    CHECK_THAT(refusalOf([&] { document.addGround(piece); }), Catch::Contains("photo"));
    CHECK(document.grounds().empty());
    piece.photo.chop(1);
    document.addGround(piece);
    CHECK(document.grounds().front().ground == piece);
}

TEST_CASE("a copy of the old schema is kept and opens as the old one did") {
    const Place place;
    makeOldWorkbox(place.path());
    { const Store store(place.path()); }
    const QString copy = place.path(QStringLiteral("workbox.sqlite.v1.bak"));
    CHECK(schemaOf(copy) == 1);
    CHECK(inFile(copy) == oldContents()); // brought forward in turn
}

TEST_CASE("an earlier copy is never written over") {
    const Place place;
    const QString first = place.path(QStringLiteral("workbox.sqlite.v1.bak"));
    const QString second = first + QStringLiteral("-2");
    writeBytes(first, QByteArrayLiteral("kept"));
    writeBytes(second, QByteArrayLiteral("kept too"));
    writeBytes(first + QStringLiteral("-unfinished"), QByteArrayLiteral("of a killed program"));
    makeOldWorkbox(place.path());
    { const Store store(place.path()); }
    CHECK(bytesOf(first) == "kept");
    CHECK(bytesOf(second) == "kept too");
    CHECK(schemaOf(first + QStringLiteral("-3")) == 1);
    CHECK_FALSE(QFile::exists(first + QStringLiteral("-unfinished")));
}

TEST_CASE("without a place for the copy the old workbox stays as it was") {
    const Place place;
    makeOldWorkbox(place.path());
    const QByteArray before = bytesOf(place.path());
    // A folder under the copy's passing name, which cannot be removed like a file.
    REQUIRE(QDir().mkpath(place.path(QStringLiteral("workbox.sqlite.v1.bak-unfinished/x"))));
    CHECK_THAT(refusalOf([&] { const Store store(place.path()); }),
               Catch::Contains("expected a place to keep a copy"));
    CHECK(bytesOf(place.path()) == before);
}

TEST_CASE("a workbox of today is opened without a copy") {
    const Place place;
    { const Store store(place.path()); }
    { const Store store(place.path()); }
    CHECK(QDir(place.path(QString())).entryList(QDir::Files) ==
          QStringList{QStringLiteral("workbox.sqlite")});
}
