#include "workbox/store.h"

#include "workbox/samples.h"

#include <QDir>
#include <QFileInfo>

#include <random>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

/// A sound workbox with some pages in it, no log beside it.
void makeSample(const QString& path) {
    Store store(path);
    StoredCard card{store.nextCardId(), QStringLiteral("Harbour"), {}, {}};
    auto id = static_cast<qint64>(store.nextThreadId(200));
    for (const thread::Thread& one : numberedCard({}, 200).threads) {
        card.threads.push_back({ThreadId{id++}, one});
    }
    Edit edit;
    edit.cards.push_back({std::nullopt, card});
    store.apply(edit);
}

/// The refusal's line; checks that neither the file nor its folder has changed.
std::string refusalToOpen(const QString& path) {
    const QDir folder = QFileInfo(path).dir();
    const QByteArray before = bytesOf(path);
    const QStringList filesBefore = folder.entryList(QDir::Files);
    std::string line = refusalOf([&] { const Store store(path); });
    CHECK(bytesOf(path) == before);
    CHECK(folder.entryList(QDir::Files) == filesBefore);
    return line;
}

} // namespace

TEST_CASE("a folder is not opened as a workbox") {
    const Place place;
    REQUIRE(QDir().mkpath(place.path()));
    CHECK_THAT(refusalOf([&] { const Store store(place.path()); }),
               Catch::EndsWith("workbox.sqlite: expected a file, found a folder"));
}

TEST_CASE("a file of another kind is refused and left as it was") {
    const Place place;
    writeBytes(place.path(), QByteArrayLiteral("code,name,srgb\r\n1,Ink,#000000\r\n"));
    CHECK_THAT(refusalToOpen(place.path()),
               Catch::EndsWith("expected an Otherskein workbox, found a file of another kind"));
}

TEST_CASE("an SQLite file of another program is refused and left as it was") {
    const Place place;
    runSql(place.path(), {QStringLiteral("CREATE TABLE thread (id INTEGER)"),
                          QStringLiteral("PRAGMA user_version = 2"),
                          QStringLiteral("PRAGMA journal_mode = WAL")});
    CHECK_THAT(
        refusalToOpen(place.path()),
        Catch::EndsWith("expected an Otherskein workbox, found another program's SQLite file"));
}

TEST_CASE("a workbox of a newer schema is refused and left as it was") {
    const Place place;
    makeSample(place.path());
    runSql(place.path(), {QStringLiteral("PRAGMA user_version = 6")});
    CHECK_THAT(refusalToOpen(place.path()), Catch::EndsWith("found schema 6"));
}

TEST_CASE("a newer schema that stands only in the log is refused without touching the file") {
    const Place place;
    makeSample(place.path());
    const QString copy = place.path(QStringLiteral("copy.sqlite"));
    {
        const Store holder(place.path()); // keeps the log from being folded into the file
        runSql(place.path(), {QStringLiteral("PRAGMA user_version = 6")});
        REQUIRE(QFile::copy(place.path(), copy));
        REQUIRE(QFile::copy(place.path() + QStringLiteral("-wal"), copy + QStringLiteral("-wal")));
    }
    const QByteArray before = bytesOf(copy);
    CHECK_THAT(refusalOf([&] { const Store store(copy); }), Catch::EndsWith("found schema 6"));
    CHECK(bytesOf(copy) == before);
}

TEST_CASE("an empty file becomes a workbox") {
    const Place place;
    writeBytes(place.path(), {});
    Store store(place.path());
    CHECK(store.load() == Contents{});
    CHECK(store.problems().empty());
}

TEST_CASE("a truncated workbox is refused and left as it was") {
    const Place place;
    makeSample(place.path());
    const QByteArray whole = bytesOf(place.path());
    const qsizetype length = GENERATE_COPY(1, 50, 99, 100, 4095, 4096, whole.size() / 2,
                                           whole.size() - 4096, whole.size() - 1);
    CAPTURE(length, whole.size());
    writeBytes(place.path(), whole.left(length));
    CHECK_THAT(refusalToOpen(place.path()),
               Catch::Contains(length < 100 ? "a file of another kind" : "a damaged file"));
}

TEST_CASE("a page of noise is found on opening") {
    const Place place;
    makeSample(place.path());
    const QByteArray whole = bytesOf(place.path());
    constexpr qsizetype kPage = 4096;
    const qsizetype page = GENERATE(0, 1, 3, 6);
    CAPTURE(page, whole.size());
    QByteArray spoilt = whole;
    REQUIRE(spoilt.size() >= (page + 1) * kPage);
    for (qsizetype i = page == 0 ? 100 : 0; i < kPage; ++i) { // the header stays
        spoilt[page * kPage + i] = static_cast<char>(i * 37);
    }
    writeBytes(place.path(), spoilt);
    CHECK_THAT(refusalToOpen(place.path()), Catch::Contains("a damaged file"));
}

TEST_CASE("whatever bit is flipped a workbox opens or is refused untouched") {
    const Place place;
    makeSample(place.path());
    const QByteArray whole = bytesOf(place.path());
    constexpr unsigned kSeed = 7310;
    std::mt19937_64 engine(kSeed);
    int refused = 0;
    constexpr int kRounds = 250;
    for (int round = 0; round < kRounds; ++round) {
        // Half of the flips in the first page, where the structure is.
        const quint64 most = static_cast<quint64>(round % 2 == 0 ? 4096 : whole.size());
        const auto at = static_cast<qsizetype>(engine() % most);
        const auto bit = static_cast<int>(engine() % 8);
        CAPTURE(kSeed, round, at, bit);
        QByteArray spoilt = whole;
        spoilt[at] = static_cast<char>(spoilt[at] ^ (1 << bit));
        const QString path = place.path(QStringLiteral("%1.sqlite").arg(round));
        writeBytes(path, spoilt);
        const std::string line = refusalOf([&] {
            Store store(path);
            (void)store.load();
            (void)store.problems();
        });
        if (!line.empty()) {
            ++refused;
            CHECK(bytesOf(path) == spoilt);
        }
    }
    CHECK(refused > kRounds / 10); // or the flips hit nothing that matters
}

TEST_CASE("a place that cannot be written is refused in one line") {
    const std::string line =
        refusalOf([] { const Store store(QStringLiteral("/proc/otherskein/workbox.sqlite")); });
    CHECK_THAT(line, Catch::Contains("expected a folder that can be made"));
    CHECK(line.find('\n') == std::string::npos);
}

TEST_CASE("a file or folder that may only be read is refused") {
    const Place place;
    makeSample(place.path());
    const QString folder = QFileInfo(place.path()).path();
    const QByteArray before = bytesOf(place.path());
    const bool fileOnly = GENERATE(true, false);
    const QString& locked = fileOnly ? place.path() : folder;
    const QFile::Permissions original = QFile::permissions(locked);
    REQUIRE(QFile::setPermissions(locked, original & ~(QFile::WriteOwner | QFile::WriteUser |
                                                       QFile::WriteGroup | QFile::WriteOther)));
    if (!QFileInfo(locked).isWritable()) { // root may write everywhere
        CHECK_THAT(refusalOf([&] { const Store store(place.path()); }),
                   Catch::Contains("may be written"));
        CHECK(bytesOf(place.path()) == before);
    }
    REQUIRE(QFile::setPermissions(locked, original));
}

TEST_CASE("a workbox behind a link is opened where it lies") {
    const Place place;
    makeSample(place.path());
    const QString link = place.path(QStringLiteral("link.sqlite"));
    REQUIRE(QFile::link(place.path(), link));
    CHECK(inFile(link) == inFile(place.path()));
    CHECK(QFileInfo(link).isSymLink());
}

TEST_CASE("a path with signs that mean something to a URI is opened") {
    const Place place;
    const QString path = place.path(QStringLiteral("50% & more? #2 ü🧵.sqlite"));
    makeSample(path);
    CHECK(inFile(path).cards.size() == 1);
}
