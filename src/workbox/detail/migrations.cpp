#include "workbox/detail/migrations.h"

#include "workbox/store.h"

#include <QFile>

#include <array>

namespace otherskein::workbox::detail {

namespace {

// Each step leads from the schema before it to the next and is never changed once users have it.
//
// AUTOINCREMENT: an id is never used again, so an undo step can name a thread for ever. STRICT and
// CHECK let quick_check see values that a flipped bit has spoilt. `position` orders the threads of
// a card; it may have gaps. Text lists (columns, extra) are JSON arrays.
constexpr std::array kStep1{
    R"(CREATE TABLE card (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        name TEXT NOT NULL UNIQUE CHECK (name <> ''),
        columns TEXT NOT NULL
    ) STRICT)",
    R"(CREATE TABLE thread (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        card INTEGER NOT NULL REFERENCES card (id) ON DELETE CASCADE,
        position INTEGER NOT NULL,
        code TEXT NOT NULL CHECK (code <> ''),
        name TEXT NOT NULL,
        L REAL NOT NULL CHECK (L BETWEEN 0 AND 100),
        a REAL NOT NULL CHECK (a BETWEEN -128 AND 128),
        b REAL NOT NULL CHECK (b BETWEEN -128 AND 128),
        entered TEXT,
        fibre TEXT NOT NULL,
        finish TEXT NOT NULL,
        strands INTEGER NOT NULL CHECK (strands >= 1),
        length_m REAL NOT NULL CHECK (length_m > 0),
        stash REAL NOT NULL CHECK (stash >= 0),
        stock TEXT NOT NULL,
        lot TEXT NOT NULL,
        spread REAL CHECK (spread >= 0),
        note TEXT NOT NULL,
        extra TEXT NOT NULL,
        UNIQUE (card, code)
    ) STRICT)"};

// `revision` counts edits: a program that holds the contents in memory sees that another has
// edited.
constexpr std::array kStep2{
    R"(CREATE TABLE ground (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        name TEXT NOT NULL CHECK (name <> ''),
        L REAL NOT NULL CHECK (L BETWEEN 0 AND 100),
        a REAL NOT NULL CHECK (a BETWEEN -128 AND 128),
        b REAL NOT NULL CHECK (b BETWEEN -128 AND 128),
        shown TEXT NOT NULL,
        thread_count INTEGER NOT NULL CHECK (thread_count >= 1),
        over_threads INTEGER NOT NULL CHECK (over_threads >= 1),
        weave TEXT NOT NULL
    ) STRICT)",
    R"(CREATE TABLE setting (
        name TEXT PRIMARY KEY NOT NULL,
        value TEXT NOT NULL
    ) STRICT, WITHOUT ROWID)",
    R"(CREATE TABLE revision (
        only INTEGER PRIMARY KEY CHECK (only = 1),
        edits INTEGER NOT NULL
    ) STRICT)",
    "INSERT INTO revision (only, edits) VALUES (1, 0)"};

// Cells stand in bands of rows, so that a stroke writes little. Key and motif plan are JSON, cells
// and lines packed numbers.
constexpr std::array kStep3{
    R"(CREATE TABLE chart (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        name TEXT NOT NULL UNIQUE CHECK (name <> ''),
        columns INTEGER NOT NULL CHECK (columns BETWEEN 1 AND 2000),
        rows INTEGER NOT NULL CHECK (rows BETWEEN 1 AND 2000),
        stitches INTEGER NOT NULL CHECK (stitches >= 0),
        key_rows INTEGER NOT NULL CHECK (key_rows BETWEEN 0 AND 300),
        key TEXT NOT NULL,
        motifs TEXT NOT NULL,
        lines BLOB NOT NULL
    ) STRICT)",
    R"(CREATE TABLE chart_band (
        chart INTEGER NOT NULL REFERENCES chart (id) ON DELETE CASCADE,
        band INTEGER NOT NULL CHECK (band >= 0),
        cells BLOB NOT NULL,
        PRIMARY KEY (chart, band)
    ) STRICT)",
    R"(CREATE TABLE colourway (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        chart INTEGER NOT NULL REFERENCES chart (id) ON DELETE CASCADE,
        name TEXT NOT NULL,
        content TEXT NOT NULL
    ) STRICT)",
    "CREATE INDEX colourway_of_chart ON colourway (chart)"};

// A ground is a piece that the user has: how large it is, and a photo. 0 and NULL: not known.
constexpr std::array kStep4{
    "ALTER TABLE ground ADD COLUMN width_mm REAL NOT NULL DEFAULT 0 CHECK (width_mm >= 0)",
    "ALTER TABLE ground ADD COLUMN height_mm REAL NOT NULL DEFAULT 0 CHECK (height_mm >= 0)",
    "ALTER TABLE ground ADD COLUMN photo BLOB"};

// The page of a traced chart. What has been seen of it changes at each key press, so it does not
// stand in one row with the picture, which SQLite would write anew.
constexpr std::array kStep5{
    R"(CREATE TABLE traced_page (
        chart INTEGER PRIMARY KEY REFERENCES chart (id) ON DELETE CASCADE,
        cell INTEGER NOT NULL CHECK (cell BETWEEN 1 AND 1000),
        confidence BLOB NOT NULL,
        picture BLOB NOT NULL
    ) STRICT)",
    R"(CREATE TABLE traced_seen (
        chart INTEGER PRIMARY KEY REFERENCES chart (id) ON DELETE CASCADE,
        cells BLOB NOT NULL
    ) STRICT)"};

constexpr std::array<std::span<const char* const>, 5> kSteps{kStep1, kStep2, kStep3, kStep4,
                                                             kStep5};
static_assert(kSteps.size() == Store::kSchemaVersion);

void keepCopy(const Connection& connection, int version) {
    const QString copy = QStringLiteral("%1.v%2.bak").arg(connection.path()).arg(version);
    const auto cannotKeep = [&](const QString& what) {
        return base::InputError({copy,
                                 {},
                                 {},
                                 QStringLiteral("a place to keep a copy before the workbox is "
                                                "brought to a newer schema"),
                                 what});
    };
    // Written under a passing name first, so that a copy that bears its final name is whole.
    const QString unfinished = copy + QStringLiteral("-unfinished");
    if (QFile::exists(unfinished) && !QFile::remove(unfinished)) {
        throw cannotKeep(QStringLiteral("an unfinished copy that cannot be removed"));
    }
    Statement(connection, QStringLiteral("VACUUM INTO ?")).run(unfinished);
    QString name = copy;
    for (int number = 2; QFile::exists(name); ++number) {
        name = QStringLiteral("%1-%2").arg(copy).arg(number);
    }
    QFile file(unfinished);
    if (!file.rename(name)) { // refuses to write over a file
        throw cannotKeep(file.errorString());
    }
}

} // namespace

int schemaVersion(const Connection& connection) {
    return connection.value(QStringLiteral("PRAGMA user_version")).toInt();
}

void bringForward(const Connection& connection) {
    const int found = schemaVersion(connection);
    if (found == Store::kSchemaVersion) {
        return;
    }
    if (found > 0) {
        keepCopy(connection, found);
    }
    Transaction transaction(connection, Transaction::Kind::Write);
    // Asked again under the writer's lock: another program may have done it in the meantime.
    for (int version = schemaVersion(connection); version < Store::kSchemaVersion; ++version) {
        for (const char* sql : kSteps[static_cast<std::size_t>(version)]) {
            connection.run(QString::fromLatin1(sql));
        }
    }
    connection.run(QStringLiteral("PRAGMA application_id = %1").arg(kApplicationId));
    connection.run(QStringLiteral("PRAGMA user_version = %1").arg(Store::kSchemaVersion));
    transaction.commit();
}

} // namespace otherskein::workbox::detail
