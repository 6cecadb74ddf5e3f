#pragma once

#include "base/input_error.h"
#include "thread/ground.h"
#include "thread/shade_card.h"
#include "workbox/store.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

#include <limits>

namespace otherskein::workbox {

/// A folder of its own for each test.
class Place {
  public:
    Place() = default;
    explicit Place(const QString& pattern) : m_folder(pattern) {}

    /// One in memory where the system offers that: for what need not survive anything, since
    /// waiting for the disk is most of a test's time.
    static QString inMemory() {
        const QString shared = QStringLiteral("/dev/shm");
        return (QFileInfo(shared).isWritable() ? shared : QDir::tempPath()) +
               QStringLiteral("/otherskein-test-XXXXXX");
    }

    [[nodiscard]] QString path(const QString& name = QStringLiteral("workbox.sqlite")) const {
        return m_folder.filePath(name);
    }

  private:
    QTemporaryDir m_folder;
};

inline QByteArray bytesOf(const QString& path) {
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    return file.readAll();
}

inline void writeBytes(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    REQUIRE(file.write(bytes) == bytes.size());
}

/// Runs statements as another program would, past the store.
inline void runSql(const QString& path, const QStringList& statements) {
    const QString name = QStringLiteral("another program");
    {
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        database.setDatabaseName(path);
        REQUIRE(database.open());
        REQUIRE(QSqlQuery(database).exec(QStringLiteral("PRAGMA synchronous = OFF")));
        for (const QString& statement : statements) {
            QSqlQuery query(database);
            CAPTURE(statement.toStdString());
            const bool done = query.exec(statement);
            CAPTURE(query.lastError().text().toStdString());
            REQUIRE(done);
        }
    }
    QSqlDatabase::removeDatabase(name);
}

/// The line of the InputError that `action` throws; empty when it throws none.
template <typename Action>
std::string refusalOf(Action action) {
    try {
        action();
    } catch (const base::InputError& error) {
        return error.what();
    }
    return {};
}

/// All of it: charts with their cells and plans too.
inline Contents wholeContents(Store& store) {
    Contents contents = store.load();
    for (StoredChart& one : contents.charts) {
        one = store.chart(one.facts.id);
    }
    return contents;
}

inline Contents inFile(const QString& path) {
    Store store(path);
    return wholeContents(store);
}

/// Numbers and texts that a careless store would spoil.
inline thread::Thread nastyThread() {
    thread::Thread thread;
    thread.code = QStringLiteral("‏שלום-7");
    thread.name = QStringLiteral("Harbour 🧵 \"blue\"; DROP TABLE thread; --\r\n\tnext");
    thread.lab = {0.1 + 0.2, -128, std::numeric_limits<double>::denorm_min()};
    thread.fibre = QStringLiteral("coton d'Égypte");
    thread.finish = thread::Finish::Variegated;
    thread.strands = 1;
    thread.lengthM = 1.0 / 3;
    thread.stash = 9999.999999999998;
    thread.stock = thread::Stock::Discontinued;
    thread.lot = QStringLiteral("007");
    thread.spread = 5e-324;
    thread.note = QStringLiteral("👩🏽‍🎨 e\u0301 \u202e");
    thread.extra = {QStringLiteral("[\"a\"]"), QString(), QStringLiteral("\\ \x01 ,")};
    return thread;
}

inline thread::Thread plainThread(const QString& code) {
    return thread::threadOfSrgb(code, QStringLiteral("Shade ") + code, {10, 20, 30});
}

/// Threads coded "1" to `count`.
inline thread::ShadeCard numberedCard(const QString& name, int count) {
    thread::ShadeCard card;
    card.name = name;
    for (int i = 1; i <= count; ++i) {
        card.threads.push_back(plainThread(QString::number(i)));
    }
    return card;
}

inline thread::ShadeCard nastyCard() {
    thread::ShadeCard card = numberedCard(QStringLiteral("Quay & Sons — ‏יריד 🎣"), 3);
    card.columns = {QStringLiteral("code"), QStringLiteral("name"), QStringLiteral("Regal, \"3\""),
                    QStringLiteral("srgb"), QStringLiteral("ящик"), QStringLiteral("")};
    card.threads.insert(card.threads.begin() + 1, nastyThread());
    return card;
}

inline thread::Ground linen() {
    thread::Ground ground = thread::groundOfSrgb(QStringLiteral("Flax 🧺"), {200, 190, 170});
    ground.count = 28;
    ground.over = 1;
    ground.weave = QStringLiteral("linen");
    return ground;
}

} // namespace otherskein::workbox
