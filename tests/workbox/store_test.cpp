#include "workbox/store.h"

#include "workbox/samples.h"

#include <QFileInfo>
#include <QStandardPaths>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

/// `card` as an addition with fresh ids.
Edit adding(Store& store, const thread::ShadeCard& card) {
    StoredCard stored{store.nextCardId(), card.name, card.columns, {}};
    for (const thread::Thread& one : card.threads) {
        stored.threads.push_back({store.nextThreadId(), one});
    }
    Edit edit;
    edit.cards.push_back({std::nullopt, stored});
    return edit;
}

Edit adding(Store& store, const thread::Ground& ground) {
    Edit edit;
    edit.grounds.push_back({store.nextGroundId(), std::nullopt, ground});
    return edit;
}

} // namespace

TEST_CASE("a new workbox is empty and sound") {
    const Place place;
    Store store(place.path(QStringLiteral("new folder/deeper/workbox.sqlite")));
    CHECK(store.load() == Contents{});
    CHECK(store.problems().empty());
    CHECK(store.setting(QStringLiteral("ground")).isEmpty());
}

TEST_CASE("cards and grounds come back exactly after the file is opened again") {
    const Place place;
    Contents before;
    {
        Store store(place.path());
        const Edit card = adding(store, nastyCard());
        store.apply(card);
        const Edit ground = adding(store, linen());
        store.apply(ground);
        before = {{*card.cards[0].after}, {{ground.grounds[0].id, linen()}}};
    }
    Store store(place.path());
    CHECK(store.load() == before);
    CHECK(store.cards() == before.cards);
    CHECK(store.grounds() == before.grounds);
    CHECK(store.problems().empty());
}

TEST_CASE("an id is never used again after its thing is deleted") {
    const Place place;
    CardId card{};
    ThreadId thread{};
    GroundId ground{};
    {
        Store store(place.path());
        const Edit cards = adding(store, numberedCard(QStringLiteral("Harbour"), 3));
        store.apply(cards);
        store.apply(inverse(cards));
        const Edit grounds = adding(store, linen());
        store.apply(grounds);
        store.apply(inverse(grounds));
        card = cards.cards[0].after->id;
        thread = cards.cards[0].after->threads.back().id;
        ground = grounds.grounds[0].id;
    }
    Store store(place.path());
    CHECK(store.nextCardId() > card);
    CHECK(store.nextThreadId() > thread);
    CHECK(store.nextGroundId() > ground);
}

TEST_CASE("ids are given out in runs that do not overlap") {
    const Place place;
    Store store(place.path());
    const auto first = static_cast<qint64>(store.nextThreadId(10));
    CHECK(static_cast<qint64>(store.nextThreadId()) == first + 10);
    CHECK(static_cast<qint64>(store.nextThreadId()) == first + 11);
}

TEST_CASE("a setting outlives the session and the last value counts") {
    const Place place;
    const QString name = QStringLiteral("ground 🧺");
    {
        Store store(place.path());
        store.setSetting(name, QStringLiteral("1"));
        store.setSetting(name, QStringLiteral("2"));
        store.setSetting(QStringLiteral("empty"), QString());
    }
    const Store store(place.path());
    CHECK(store.setting(name) == QStringLiteral("2"));
    CHECK(store.setting(QStringLiteral("empty")).isEmpty());
}

TEST_CASE("an edit that fails midway leaves nothing of itself in the file") {
    const Place place;
    Store store(place.path());
    store.apply(adding(store, numberedCard(QStringLiteral("Harbour"), 2)));
    const Contents before = store.load();

    Edit edit = adding(store, numberedCard(QStringLiteral("Quay"), 2));
    Edit again = adding(store, numberedCard(QStringLiteral("Harbour"), 2)); // a name that is taken
    edit.cards.push_back(again.cards[0]);
    edit.grounds = adding(store, linen()).grounds;
    CHECK_THAT(refusalOf([&] { store.apply(edit); }),
               Catch::Contains("workbox.sqlite: expected values that keep the workbox's rules"));
    CHECK(inFile(place.path()) == before);
    CHECK(store.problems().empty());

    edit.cards.pop_back();
    store.apply(edit);
    CHECK(inFile(place.path()).cards.size() == 2);
}

TEST_CASE("an edit of a thing that is not there is refused") {
    const Place place;
    Store store(place.path());
    const Edit card = adding(store, numberedCard(QStringLiteral("Harbour"), 2));
    const Edit ground = adding(store, linen());
    CHECK_THAT(refusalOf([&] { store.apply(inverse(card)); }),
               Catch::Contains("expected the shade card as it was read"));
    CHECK_THAT(refusalOf([&] { store.apply(inverse(ground)); }),
               Catch::Contains("expected the ground as it was read"));
    CHECK(store.load() == Contents{});
}

TEST_CASE("a number that is none is refused by the file itself") {
    const Place place;
    Store store(place.path());
    thread::ShadeCard card = numberedCard(QStringLiteral("Harbour"), 1);
    card.threads[0].lab.a = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(refusalOf([&] { store.apply(adding(store, card)); }).empty());
    CHECK(store.load() == Contents{});
}

TEST_CASE("a second opener reads and is kept from writing over the first") {
    const Place place;
    Store first(place.path());
    first.apply(adding(first, numberedCard(QStringLiteral("Harbour"), 2)));
    Store second(place.path());
    CHECK(second.load() == first.load());
    CHECK_FALSE(second.changedElsewhere());

    first.apply(adding(first, linen()));
    CHECK(second.changedElsewhere());
    CHECK_FALSE(first.changedElsewhere());
    const Edit edit = adding(second, numberedCard(QStringLiteral("Quay"), 2));
    CHECK_THAT(refusalOf([&] { second.apply(edit); }),
               Catch::Contains("found one that another program has changed since"));

    CHECK(second.load() == first.load());
    second.apply(edit);
    CHECK(first.changedElsewhere());
    CHECK(first.load() == second.load());
}

TEST_CASE("a write waits for another writer and then says so") {
    const Place place;
    Store store(place.path());
    const Edit edit = adding(store, linen());
    const QString name = QStringLiteral("a writer that does not let go");
    {
        QSqlDatabase other = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        other.setDatabaseName(place.path());
        REQUIRE(other.open());
        REQUIRE(QSqlQuery(other).exec(QStringLiteral("BEGIN IMMEDIATE")));
        CHECK_THAT(refusalOf([&] { store.apply(edit); }),
                   Catch::Contains("found one that is in use"));
        CHECK(Store(place.path()).load() == Contents{}); // reading goes on
        REQUIRE(QSqlQuery(other).exec(QStringLiteral("ROLLBACK")));
    }
    QSqlDatabase::removeDatabase(name);
    store.apply(edit);
    CHECK(store.grounds().size() == 1);
}

TEST_CASE("problems names what is wrong inside a file that SQLite finds sound") {
    const Place place;
    {
        Store store(place.path());
        store.apply(adding(store, numberedCard(QStringLiteral("Harbour"), 3)));
    }
    const QString damage = GENERATE(
        QStringLiteral("UPDATE thread SET position = 1"),
        QStringLiteral("UPDATE thread SET finish = 'glossy' WHERE id = 1"),
        QStringLiteral("UPDATE thread SET extra = '{}' WHERE id = 1"),
        QStringLiteral("UPDATE thread SET strands = 99 WHERE id = 1"),
        QStringLiteral("UPDATE thread SET entered = '#12' WHERE id = 1"),
        QStringLiteral("UPDATE card SET name = ' ' WHERE id = 1"),
        QStringLiteral("UPDATE thread SET card = 7 WHERE id = 1"),
        QStringLiteral("DELETE FROM sqlite_sequence"), QStringLiteral("DELETE FROM revision"));
    CAPTURE(damage.toStdString());
    runSql(place.path(), {damage});
    const Store store(place.path());
    CHECK_FALSE(store.problems().empty());
}

TEST_CASE("the default workbox lies in the data folder whatever the program is called") {
    CHECK(defaultWorkboxPath() ==
          QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) +
              QStringLiteral("/otherskein/workbox.sqlite"));
}
